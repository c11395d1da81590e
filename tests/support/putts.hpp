#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>

#include "greens/green_file.hpp"
#include "physics/read/read.hpp"
#include "physics/roll/green_speed.hpp"

/// Putts in the words of the trade, for tests.
namespace dewtrail::oracle {

inline double resistance(double stimp_ft) {
    return resistance_of_stimp(stimp_ft * metres_per_foot);
}

/// A bare putt: hole at the origin of a plane that rises toward +y, ball at a clock.
inline Putt bare_putt(double stimp_ft, double slope, double feet, double clock_h, Finish finish) {
    Putt putt;
    putt.surface = std::make_shared<Plane>(Vec2(0, slope));
    putt.resistance = resistance(stimp_ft);
    putt.ball = feet * metres_per_foot * along_bearing(clock_h * M_PI / 6);
    putt.finish = finish;
    return putt;
}

struct NamedPutt {
    const char* name;
    Putt putt;
};

inline Finish inches_past(double inches) {
    return Finish::past(inches * metres_per_inch);
}

inline std::filesystem::path greens_folder() {
    return std::filesystem::path(DEWTRAIL_SOURCE_DIR) / "greens";
}

inline Green shipped_green(const std::string& name) {
    return load_green(name, {greens_folder()});
}

/// A putt between a named ball and a named hole of a green, at the green's own stimp.
inline Putt putt_on(const Green& green, const std::string& ball, const std::string& hole,
                    Finish finish) {
    Putt putt;
    putt.surface = green.surface;
    putt.outline = std::make_shared<Outline>(green.outline);
    putt.resistance = resistance(green.stimp_ft);
    putt.ball = green.balls.at(ball);
    putt.hole = green.holes.at(hole);
    putt.finish = finish;
    return putt;
}

/// A putt on a green without an edge, at stimp 10.
inline Putt putt_on(std::shared_ptr<const Surface> surface, const Vec2& ball, const Vec2& hole,
                    Finish finish) {
    Putt putt;
    putt.surface = std::move(surface);
    putt.resistance = resistance(10);
    putt.ball = ball;
    putt.hole = hole;
    putt.finish = finish;
    return putt;
}

/// The surface with one more tilt of the whole.
inline std::shared_ptr<const Surface> tilted(std::shared_ptr<const Surface> surface,
                                             const Vec2& tilt) {
    class Tilted final : public Surface {
      public:
        Tilted(std::shared_ptr<const Surface> surface, const Vec2& tilt)
            : surface_(std::move(surface)), tilt_(tilt) {}
        SurfaceJet at(double x, double y) const override {
            SurfaceJet j = surface_->at(x, y);
            j.h += tilt_.x() * x + tilt_.y() * y;
            j.hx += tilt_.x();
            j.hy += tilt_.y();
            return j;
        }

      private:
        std::shared_ptr<const Surface> surface_;
        Vec2 tilt_;
    };
    if (const auto* plane = dynamic_cast<const Plane*>(surface.get()))
        return std::make_shared<Plane>(plane->gradient() + tilt);
    return std::make_shared<Tilted>(std::move(surface), tilt);
}

/// The read's line and nothing else.
inline ReadOptions line_only() {
    ReadOptions options;
    options.look_for_others = options.room = options.costs = false;
    return options;
}

/// The first line of a putt that has one; fails the test if it has none.
inline Read read_of(const Putt& putt, const ReadOptions& options = line_only()) {
    const ReadResult result = read(putt, options);
    if (result.lines.empty() || result.none) throw std::runtime_error("the putt has no line");
    return result.lines.front();
}

/// The same, if it has one that leads to a spot beside the hole.
inline std::optional<Read> aimed_read_of(const Putt& putt) {
    const ReadResult result = read(putt, line_only());
    if (result.lines.empty() || !result.lines[0].aim_offset_m) return std::nullopt;
    return result.lines[0];
}

}  // namespace dewtrail::oracle
