#pragma once

namespace dewtrail {

/// The clock of a roll: real time, or slowed to a half or a quarter; independent of the frame rate.
struct Playback {
    double time_s = 0;
    double end_s = 0;
    bool running = false;
    int slowed = 0;  ///< 0 real time, 1 half, 2 quarter

    double rate() const { return slowed == 0 ? 1.0 : slowed == 1 ? 0.5 : 0.25; }
    const char* words() const {
        return slowed == 0 ? "real time" : slowed == 1 ? "½ speed" : "¼ speed";
    }

    /// A new roll, shown complete.
    void load(double end) {
        end_s = time_s = end;
        running = false;
    }
    /// Pause, go on, or from the start again.
    void toggle() {
        if (!running && time_s >= end_s) time_s = 0;
        running = !running && end_s > 0;
    }
    void seek(double time) { time_s = time < 0 ? 0 : time > end_s ? end_s : time; }
    void slower() { slowed = (slowed + 1) % 3; }
    void advance(double real_s) {
        if (!running) return;
        seek(time_s + real_s * rate());
        if (time_s >= end_s) running = false;
    }
    bool complete() const { return time_s >= end_s; }
};

}  // namespace dewtrail
