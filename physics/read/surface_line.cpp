#include "physics/read/surface_line.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>

#include "physics/numbers/in_parallel.hpp"
#include "physics/read/plane_line.hpp"
#include "physics/read/shortfall.hpp"
#include "physics/read/told_stroke.hpp"
#include "physics/roll/forces.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr double most_angle_step_rad = 0.25;
constexpr double most_speed_step = 0.3;  ///< as a fraction
constexpr int most_newton_steps = 25;
/// A search that has not gained that much in so many steps leads nowhere.
constexpr std::size_t patience = 4;
constexpr double least_gained = 0.3;
constexpr double solved_within = 1e-6;

double size(const Shortfall& s) {
    return std::hypot(s.miss, s.finish);
}

std::optional<Stroke> newton_step(const Stroke& from, const Shortfall& at) {
    const Eigen::FullPivLU<Eigen::Matrix2d> lu(at.derivative.leftCols<2>());
    if (!lu.isInvertible()) return std::nullopt;
    const Eigen::Vector2d step = -lu.solve(Eigen::Vector2d(at.miss, at.finish));
    if (!step.allFinite()) return std::nullopt;
    const double shrink = std::max({1.0, std::abs(step[0]) / most_angle_step_rad,
                                    std::abs(step[1]) / (most_speed_step * from.speed_m_s)});
    return Stroke{step[0] / shrink, step[1] / shrink};
}

/// A stroke, and what it was found to do.
struct Tried {
    Stroke stroke;
    Shortfall at;
};

Stroke moved(const Stroke& from, const Stroke& step, double part) {
    return {from.angle_rad + part * step.angle_rad, from.speed_m_s + part * step.speed_m_s};
}

/// Damped Newton until within `close`, or as near as the integration's own noise lets it come.
/// `roll_like(size)`: the tolerance for a stroke about so far off.
template <class Tolerance>
std::optional<Tried> newton(const Putt& putt, const Stroke& start, double close,
                            Tolerance roll_like) {
    Tried now{start, {}};
    const auto first = shortfall(putt, start, roll_like(HUGE_VAL));
    if (!first) return std::nullopt;
    now.at = *first;
    std::array<double, patience> before;
    before.fill(HUGE_VAL);
    for (int i = 0; i < most_newton_steps && size(now.at) >= close; ++i) {
        double& some_steps_ago = before[i % patience];
        if (size(now.at) > (1 - least_gained) * some_steps_ago) break;
        some_steps_ago = size(now.at);
        const auto step = newton_step(now.stroke, now.at);
        if (!step) return std::nullopt;
        bool better = false;
        for (double part = 1; part > 0.02 && !better; part *= 0.5) {
            const Stroke next = moved(now.stroke, *step, part);
            const auto there = shortfall(putt, next, roll_like(size(now.at)));
            if (!there || size(*there) >= size(now.at)) continue;
            now = {next, *there};
            better = true;
        }
        if (!better) break;
    }
    return now;
}

/// From a stroke that misses by little, with its derivatives: rolls without any, exactly, until the
/// next would be closer than `solved_within` by far. None if that does not come of itself.
std::optional<Stroke> polished(const Putt& putt, Tried now, double tolerance) {
    constexpr double well_within = 0.1 * solved_within, least_gain = 0.1;
    constexpr int most_rolls = 4;
    double off = size(now.at);
    for (int i = 0; i < most_rolls; ++i) {
        const auto step = newton_step(now.stroke, now.at);
        if (!step) return std::nullopt;
        const Stroke next = moved(now.stroke, *step, 1);
        const auto there = shortfall(putt, next, tolerance, Derivatives::none);
        if (!there) return std::nullopt;
        const double gain = size(*there) / off;
        now.stroke = next;
        now.at.miss = there->miss;
        now.at.finish = there->finish;
        off = size(*there);
        if (off < well_within) return next;
        if (gain > least_gain) return std::nullopt;
        // The derivatives being those of the start, every step gains as much as the one before.
        if (gain * off < well_within)
            if (const auto last = newton_step(next, now.at)) return moved(next, *last, 1);
    }
    return std::nullopt;
}

/// Ends within 1e-6 of both targets, or where the integration's own noise lets it come no nearer
/// than a third of what the check allows; otherwise gives up. The first strokes, far off, are
/// rolled roughly; if rolls without derivatives do not end what those began, exactly from there.
std::optional<Stroke> newton(const Putt& putt, const Stroke& stroke, double tolerance) {
    constexpr double far_off = 0.02, rough = 1e-5, fair = 1e-6, near_enough = 3e-5;
    Stroke from = stroke;
    if (tolerance < fair) {
        const auto roughly = [](double off) { return off > 10 * far_off ? rough : fair; };
        const auto near = newton(putt, stroke, far_off, roughly);
        if (!near) return std::nullopt;
        if (size(near->at) < far_off)
            if (const auto found = polished(putt, *near, tolerance)) return found;
        from = near->stroke;
    }
    const auto found = newton(putt, from, solved_within, [&](double) { return tolerance; });
    if (found && size(found->at) < near_enough) return found->stroke;
    return std::nullopt;
}

/// A share of the green and the rest of a plane: the road from the closed form to the green.
class Blend final : public Surface {
  public:
    Blend(const Surface& green, const Vec2& plane, double share)
        : green_(green), plane_(plane), share_(share) {}

    SurfaceJet at(double x, double y) const override {
        SurfaceJet j = green_.at(x, y);
        for (double* d :
             {&j.h, &j.hx, &j.hy, &j.hxx, &j.hxy, &j.hyy, &j.hxxx, &j.hxxy, &j.hxyy, &j.hyyy})
            *d *= share_;
        j.h += (1 - share_) * (plane_.x() * x + plane_.y() * y);
        j.hx += (1 - share_) * plane_.x();
        j.hy += (1 - share_) * plane_.y();
        return j;
    }
    SmoothPatch patch(const Vec2& at) const override { return green_.patch(at); }

  private:
    const Surface& green_;
    Vec2 plane_;
    double share_;
};

/// Of the speed, what a ball that slows evenly has left at the hole.
double left_at_hole(const Putt& putt) {
    const double past = putt.finish.kind == Finish::Kind::past ? putt.finish.value : 0.3;
    return std::sqrt(past / (putt.distance_m() + past));
}

/// What acts on the ball as a slope: along the ball-hole line the mean over the way, across it that
/// over the time with the lever of MODEL.md section 9. The way is the line, bowed as a ball goes
/// that leaves it at an angle of that tangent.
Vec2 acting_slope(const Putt& putt, double tangent) {
    const Forces forces(putt.conditions);
    constexpr int samples = 8;
    const Vec2 e = putt.line().normalized(), right = right_of(e);
    const double lost = 1 - left_at_hole(putt);
    const double start = 2 * putt.distance_m() / (2 - lost);  // its speed, by shares of the time
    double along = 0, across = 0, way = 0, lever = 0;
    for (int i = 0; i < samples; ++i) {
        const double t = (i + 0.5) / samples, speed = 1 - t * lost;
        const Vec2 p =
            putt.ball + start * t * ((1 - 0.5 * t * lost) * e + tangent * (1 - t) * right);
        const Vec2 pull = forces.pull(putt.surface->at(p.x(), p.y()), putt.resistance);
        along -= speed * pull.dot(e);
        across -= (1 - t) * pull.dot(right);
        way += speed;
        lever += 1 - t;
    }
    return along / way * e + across / lever * right;
}

/// The plane that acts on the ball as the green does, wind and grain taken as tilt; held to one
/// that has a line.
Vec2 acting_plane(const Putt& putt) {
    const Vec2 e = putt.line().normalized(), right = right_of(e);
    const double left = left_at_hole(putt), holding = putt.holding();
    const Vec2 straight = acting_slope(putt, 0);
    const double slowing = std::max(holding + straight.dot(e), 0.2 * holding);
    // The exact plane's path for little slope.
    const double share = left * left, bend = share > 0 ? share * std::log(share) : 0;
    const double tangent = straight.dot(right) / (2 * slowing) * (1 + bend / (1 - share));
    const Vec2 bowed = acting_slope(putt, std::clamp(tangent, -1.0, 1.0));
    const double steepest = 0.85 * putt.resistance;
    return bowed.norm() > steepest ? Vec2(bowed * (steepest / bowed.norm())) : bowed;
}

std::optional<Stroke> plane_seed(const Putt& putt, const Vec2& plane) {
    const auto lines = lines_on_plane(plane, putt.resistance, putt.line(), putt.finish);
    if (lines.strokes.empty()) return std::nullopt;
    return lines.strokes.front();
}

/// The stroke that rolls as far on the level under the putt's conditions.
Stroke under_conditions(const Putt& putt, Stroke stroke) {
    stroke.speed_m_s = launch_speed_m_s(putt, level_roll_m(stroke.speed_m_s, putt.resistance));
    return stroke;
}

/// A share of the conditions; none of them at 0.
Conditions part_of(const Conditions& whole, double share) {
    Conditions part = whole;
    part.wind_m_s *= share;
    part.grain *= share;
    part.slow_share = 1 + share * (whole.slow_share - 1);
    if (whole.launch_spin) part.launch_spin = 1 + share * (*whole.launch_spin - 1);
    return part;
}

/// From the closed form to the green: surface and conditions grow together.
std::optional<Stroke> continue_from_plane(const Putt& putt, const Vec2& plane, Stroke stroke,
                                          double tolerance) {
    constexpr double least_stride = 1.0 / 32;
    double share = 0, stride = 0.25;
    while (share < 1) {
        const double next = std::min(1.0, share + stride);
        Putt blended = putt;
        blended.surface = std::make_shared<Blend>(*putt.surface, plane, next);
        blended.conditions = part_of(putt.conditions, next);
        if (const auto found = newton(blended, stroke, tolerance)) {
            stroke = *found;
            share = next;
        } else if ((stride /= 2) < least_stride) {
            return std::nullopt;
        }
    }
    return stroke;
}

/// Strokes spread over all useful angles and paces, each with its two residuals.
class Fan {
  public:
    Fan(const Putt& putt, double tolerance) : putt_(putt), tolerance_(tolerance) {
        in_parallel(angles * paces, [&](int k) {
            const int i = k / paces, j = k % paces;
            at_[i][j] = shortfall_of(stroke(i, j));
        });
    }

    /// One stroke for every cell in which both residuals change sign.
    std::vector<Stroke> seeds() const {
        std::vector<Stroke> found;
        for (int i = 0; i + 1 < angles; ++i)
            for (int j = 0; j + 1 < paces; ++j) {
                const std::array corners{&at_[i][j], &at_[i + 1][j], &at_[i][j + 1],
                                         &at_[i + 1][j + 1]};
                if (std::any_of(corners.begin(), corners.end(), [](auto* c) { return !*c; }))
                    continue;
                if (changes(corners, &Shortfall::miss) && changes(corners, &Shortfall::finish))
                    found.push_back(
                        {0.5 * (angle(i) + angle(i + 1)), 0.5 * (pace(j) + pace(j + 1))});
            }
        return found;
    }

    struct NearMiss {
        Stroke stroke;
        double finish;  ///< beyond what was asked
    };

    /// Strokes that pass the hole, and what they do there; nearest to what was asked first.
    std::vector<NearMiss> passing() const {
        std::vector<NearMiss> found;
        for (int i = 0; i < angles; ++i)
            for (int j = 0; j + 1 < paces; ++j) {
                const auto &a = at_[i][j], &b = at_[i][j + 1];
                if (!a || !b || (a->miss < 0) == (b->miss < 0)) continue;
                const double t = a->miss / (a->miss - b->miss);
                found.push_back({{angle(i), pace(j) + t * (pace(j + 1) - pace(j))},
                                 a->finish + t * (b->finish - a->finish)});
            }
        std::sort(found.begin(), found.end(), [](const NearMiss& a, const NearMiss& b) {
            return std::abs(a.finish) < std::abs(b.finish);
        });
        return found;
    }

  private:
    static constexpr int angles = 35, paces = 14;

    /// Denser near the ball-hole line; up to 100 degrees either side.
    static double angle(int i) {
        const double t = 2.0 * i / (angles - 1) - 1;
        return (0.35 * t + 1.4 * t * t * t);
    }

    /// Level rolls from a third of the putt to four times what would reach a hole as high as the
    /// highest point on the line.
    double pace(int j) const {
        const double least = putt_.distance_m() / 3;
        const double most = 3 * (putt_.distance_m() + 1) + 4 * climb() / putt_.resistance;
        const double level = least * std::pow(most / least, double(j) / (paces - 1));
        return launch_speed_m_s(putt_, level);
    }

    double climb() const {
        const double start = putt_.surface->at(putt_.ball.x(), putt_.ball.y()).h;
        double most = 0;
        for (double t : {0.25, 0.5, 0.75, 1.0}) {
            const Vec2 p = putt_.ball + t * putt_.line();
            most = std::max(most, putt_.surface->at(p.x(), p.y()).h - start);
        }
        return most;
    }

    Stroke stroke(int i, int j) const { return {angle(i), pace(j)}; }

    std::optional<Shortfall> shortfall_of(const Stroke& s) const {
        return shortfall(putt_, s, tolerance_, Derivatives::none);
    }

    template <class Corners>
    static bool changes(const Corners& corners, double Shortfall::*member) {
        int positive = 0;
        for (const auto* c : corners) positive += ((**c).*member > 0);
        return positive != 0 && positive != static_cast<int>(corners.size());
    }

    const Putt& putt_;
    double tolerance_;
    std::optional<Shortfall> at_[angles][paces];
};

bool same(const Stroke& a, const Stroke& b) {
    return std::abs(a.angle_rad - b.angle_rad) < 1e-4 && std::abs(a.speed_m_s - b.speed_m_s) < 1e-3;
}

void add(std::vector<Stroke>& strokes, const std::optional<Stroke>& found) {
    if (!found || std::abs(found->angle_rad) > M_PI) return;
    for (const Stroke& s : strokes)
        if (same(s, *found)) return;
    strokes.push_back(*found);
}

/// Whether some stroke near one that passes the hole really does, and with what finish.
std::optional<double> nearest_finish(const Putt& putt, const Fan& fan, double tolerance) {
    constexpr int most_tries = 6;
    int tries = 0;
    for (const auto& near : fan.passing()) {
        if (++tries > most_tries) break;
        Putt other = putt;
        other.finish.value = std::max(0.0, putt.finish.value + near.finish);
        if (newton(other, near.stroke, tolerance)) return other.finish.value;
    }
    return std::nullopt;
}

}  // namespace

std::optional<Stroke> direct_line_on_surface(const Putt& putt, double tolerance) {
    const Vec2 plane = acting_plane(putt);
    const auto seed = plane_seed(putt, plane);
    if (!seed) return std::nullopt;
    const auto found = newton(putt, under_conditions(putt, *seed), tolerance);
    return found ? found : continue_from_plane(putt, plane, *seed, tolerance);
}

SurfaceLines lines_on_surface(const Putt& putt, double tolerance, bool every_line) {
    SurfaceLines lines;
    add(lines.strokes, direct_line_on_surface(putt, tolerance));
    if (lines.strokes.empty() || every_line) {
        constexpr double coarse = 1e-4;  // signs are all that is asked; the same lines as with 1e-6
        const Fan fan(putt, coarse);
        for (const Stroke& seed : fan.seeds()) add(lines.strokes, newton(putt, seed, tolerance));
        if (lines.strokes.empty()) lines.nearest_finish = nearest_finish(putt, fan, tolerance);
    }
    std::sort(lines.strokes.begin(), lines.strokes.end(), [](const Stroke& a, const Stroke& b) {
        return std::abs(a.angle_rad) < std::abs(b.angle_rad);
    });
    return lines;
}

}  // namespace dewtrail
