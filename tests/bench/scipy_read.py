#!/usr/bin/python3
"""Plane reads as a careful SciPy script would make them, for the benchmark: solve_ivp (DOP853) with
events for the closest pass and the end of the roll, fsolve for line and pace.

Reads lines of `slope resistance ball_x ball_y past_m angle_rad speed_m_s` (the last two are the true
stroke) and prints one line of JSON: mean and median milliseconds a read, and the worst errors.
"""

import json
import math
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import fsolve

G = 9.80665
STOPPED = 1e-3


def motion(slope, resistance):
    w = math.sqrt(1 + slope * slope)
    push = 5 / 7 * G / (w * w)
    drag = 5 / 7 * resistance * G / w

    def rates(_, s):
        _, _, vx, vy, _ = s
        v = math.sqrt(vx * vx + vy * vy + (slope * vy) ** 2)
        return [vx, vy, -drag * vx / v, -slope * push - drag * vy / v, v]

    return rates


def passes(_, s):
    return s[0] * s[2] + s[1] * s[3]


passes.direction = 1


def stops(_, s):
    return math.hypot(s[2], s[3]) - STOPPED


stops.terminal = True


def residual(stroke, slope, resistance, ball, past):
    angle, speed = stroke
    bearing = math.atan2(-ball[0], -ball[1]) + angle
    ex, ey = math.sin(bearing), math.cos(bearing)
    plan = speed / math.sqrt(1 + (slope * ey) ** 2)
    rolled = solve_ivp(motion(slope, resistance), (0, 100), [*ball, plan * ex, plan * ey, 0],
                       method="DOP853", rtol=1e-10, atol=1e-10, events=(passes, stops))
    end = rolled.y[:, -1]
    v = math.hypot(end[2], end[3])
    arc = end[4] + v * v / (2 * 5 / 7 * G * max(resistance + slope * end[3] / v, 1e-3))
    if not len(rolled.y_events[0]):
        e = -np.array(ball) / np.hypot(*ball)
        return [e[1] * end[0] - e[0] * end[1], e @ end[:2] - past]
    at = rolled.y_events[0][0]
    e = at[2:4] / np.hypot(at[2], at[3])
    return [e[1] * at[0] - e[0] * at[1], arc - at[4] - past]


def main():
    times, worst_angle, worst_speed = [], 0.0, 0.0
    for line in sys.stdin:
        slope, resistance, x, y, past, angle, speed = map(float, line.split())
        level = math.hypot(x, y) + past
        guess = [0.0, math.sqrt(2 * 5 / 7 * resistance * G * level)]
        start = time.perf_counter()
        stroke = fsolve(residual, guess, args=(slope, resistance, (x, y), past), xtol=1e-9)
        times.append(1e3 * (time.perf_counter() - start))
        worst_angle = max(worst_angle, abs(stroke[0] - angle))
        worst_speed = max(worst_speed, abs(stroke[1] - speed))
    print(json.dumps({"mean_ms": float(np.mean(times)), "median_ms": float(np.median(times)),
                      "angle_rad": worst_angle, "speed_m_s": worst_speed, "reads": len(times)}))


if __name__ == "__main__":
    main()
