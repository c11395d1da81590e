#include "physics/odds/next_putts.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numbers/in_parallel.hpp"
#include "physics/odds/misses.hpp"
#include "physics/read/plane_line.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr double steepest_share = 0.9;  ///< of the slope that holds a ball
constexpr double least_slope = 1e-9;
constexpr double settled = 5e-4;
constexpr int most_sweeps = 10;

/// The plane that lies on average between two places.
Vec2 mean_gradient(const Surface& surface, const Vec2& a, const Vec2& b) {
    constexpr int samples = 8;
    Vec2 sum = Vec2::Zero();
    for (int i = 0; i <= samples; ++i) {
        const Vec2 p = a + (b - a) * (double(i) / samples);
        sum += surface.at(p.x(), p.y()).gradient();
    }
    return sum / (samples + 1);
}

HoleSurround::Option option_of(const Putt& putt) {
    const auto* plane = dynamic_cast<const Plane*>(putt.surface.get());
    const Stroke stroke =
        lines_on_plane(plane->gradient(), putt.resistance, putt.line(), putt.finish)
            .strokes.front();
    return {stroke.angle_rad, level_roll_m(stroke.speed_m_s, putt.resistance),
            read_slope_sensitivity(putt, stroke).value_or(Eigen::Matrix2d::Zero())};
}

std::optional<HoleSurround::Spot> make_spot(const Vec2& gradient, double resistance,
                                            const Vec2& ball, const Vec2& hole) {
    const double steepest = steepest_share * resistance;
    const Vec2 held =
        gradient.norm() > steepest ? Vec2(gradient * (steepest / gradient.norm())) : gradient;
    Putt putt;
    putt.surface = std::make_shared<Plane>(held);
    putt.resistance = resistance;
    putt.ball = ball;
    putt.hole = hole;
    constexpr int edge_rows = 19;  // 49 for one putt of its own: 0.0003 putts
    auto map = StrokeMap::make(putt, std::nullopt, {}, edge_rows);
    if (!map) return std::nullopt;
    HoleSurround::Spot spot{std::move(*map), {}};
    for (std::size_t i = 0; i < HoleSurround::pasts_m.size(); ++i) {
        putt.finish = Finish::past(HoleSurround::pasts_m[i]);
        spot.options[i] = option_of(putt);
    }
    return spot;
}

/// What a player intends from a spot.
struct Choice {
    int nearest = 2;  ///< index of the finish nearest to it
    double past_m = 0;
    double aim = 0;  ///< right of the read, in standard deviations of the start angle
};

/// Of the parabola through three points, held between the outer ones.
double turning_point(const std::array<double, 3>& x, const std::array<double, 3>& y) {
    const double a = (y[1] - y[0]) / (x[1] - x[0]), b = (y[2] - y[1]) / (x[2] - x[1]);
    if (!(b > a)) return x[1];
    const double middle = 0.5 * (x[0] + x[1]);
    return std::clamp(middle - a * 0.5 * (x[2] - x[0]) / (b - a), x[0], x[2]);
}

/// Finds and plays one spot's fewest-putts choice, what follows being given.
class Chooser {
  public:
    Chooser(const HoleSurround::Spot& spot, const Scatter& scatter, const ProspectTable& next)
        : spot_(spot), scatter_(scatter), next_(next) {}

    /// The finish first, downhill from the one that `choice` begins with, then the aim for it.
    void choose(Choice& choice) const {
        const auto& pasts = HoleSurround::pasts_m;
        std::array<double, last + 1> putts;
        putts.fill(-1);
        const auto at = [&](int i) {
            if (putts[i] < 0) putts[i] = play(pasts[i], 0, rough).putts;
            return putts[i];
        };
        int best = choice.nearest;
        while (best < last && at(best + 1) < at(best)) ++best;
        while (best > 0 && at(best - 1) < at(best)) --best;
        choice.nearest = best;
        choice.past_m = pasts[best];
        if (best > 0 && best < last)
            choice.past_m = turning_point({pasts[best - 1], pasts[best], pasts[best + 1]},
                                          {at(best - 1), at(best), at(best + 1)});
        const double left = play(pasts[best], -shift, rough).putts;
        const double right = play(pasts[best], shift, rough).putts;
        choice.aim = turning_point({-shift, 0, shift}, {left, at(best), right});
    }

    Prospect play(const Choice& choice) const { return play(choice.past_m, choice.aim, coarse); }

  private:
    static constexpr double shift = 0.4;
    static constexpr int last = static_cast<int>(HoleSurround::pasts_m.size()) - 1;

    Prospect play(double past_m, double aim, const Fineness& fineness) const {
        const HoleSurround::Option option = spot_.option(past_m);
        StrokeSpread spread =
            stroke_spread(option.angle_rad, option.level_roll_m, scatter_, option.sensitivity);
        spread.angle_rad += aim * std::sqrt(spread.covariance(0, 0));
        return dewtrail::play(spot_.map, spread, next_, fineness);
    }

    const HoleSurround::Spot& spot_;
    const Scatter& scatter_;
    const ProspectTable& next_;
};

}  // namespace

HoleSurround::Option HoleSurround::Spot::option(double past_m) const {
    const int last = static_cast<int>(pasts_m.size()) - 1;
    int i = 1;
    while (i < last - 1 && past_m > pasts_m[i]) ++i;
    const double a = pasts_m[i - 1], b = pasts_m[i], c = pasts_m[i + 1], x = past_m;
    const double wa = (x - b) * (x - c) / ((a - b) * (a - c));
    const double wb = (x - a) * (x - c) / ((b - a) * (b - c));
    const double wc = (x - a) * (x - b) / ((c - a) * (c - b));
    const Option &p = options[i - 1], &q = options[i], &r = options[i + 1];
    return {wa * p.angle_rad + wb * q.angle_rad + wc * r.angle_rad,
            wa * p.level_roll_m + wb * q.level_roll_m + wc * r.level_roll_m,
            wa * p.sensitivity + wb * q.sensitivity + wc * r.sensitivity};
}

int HoleSurround::kept() const {
    return static_cast<int>(spots_.size()) / empty_.used();
}

std::optional<HoleSurround> HoleSurround::make(std::shared_ptr<const Surface> surface,
                                               double resistance, const Vec2& hole,
                                               double reach_m) {
    const Vec2 gradient = surface->at(hole.x(), hole.y()).gradient();
    if (gradient.norm() >= resistance) return std::nullopt;
    const bool plane = dynamic_cast<const Plane*>(surface.get()) != nullptr;
    const bool level = gradient.norm() < least_slope;
    HoleSurround surround(
        {hole, level ? Vec2(0, 1) : gradient.normalized(), ProspectTable::rings_within(reach_m)});
    const int rings = surround.empty_.used();
    const int hours = !plane ? ProspectTable::hours : level ? 1 : 7;
    std::vector<std::optional<Spot>> spots(rings * hours);
    in_parallel(rings * hours, [&](int i) {
        const Vec2 ball = surround.empty_.place(i / hours, i % hours);
        spots[i] = make_spot(mean_gradient(*surface, ball, hole), resistance, ball, hole);
    });
    for (auto& spot : spots) {
        if (!spot) return std::nullopt;
        surround.spots_.push_back(std::move(*spot));
    }
    return surround;
}

NextPutts::NextPutts(const HoleSurround& surround, const Scatter& scatter)
    : table_(surround.empty_) {
    guess();
    std::vector<Choice> choices(surround.spots_.size());
    const int kept = surround.kept();
    for (double change = 1; change > settled && sweeps_ < most_sweeps; ++sweeps_) {
        change = 0;
        for (int ring = 0; ring < table_.used(); ++ring) {
            std::array<Prospect, ProspectTable::hours> found{};
            in_parallel(kept, [&](int hour) {
                const int i = ring * kept + hour;
                const Chooser chooser(surround.spots_[i], scatter, table_);
                if (sweeps_ == 0) {
                    if (ring > 0) choices[i] = choices[i - kept];
                    chooser.choose(choices[i]);
                }
                found[hour] = chooser.play(choices[i]);
            });
            for (int hour = 0; hour < kept; ++hour)
                change =
                    std::max(change, std::abs(found[hour].putts - table_.at(ring, hour).putts));
            take(ring, found, kept);
        }
    }
}

/// Neither far too high nor too low: short ones are holed, long ones take two.
void NextPutts::guess() {
    for (int ring = 0; ring < table_.used(); ++ring)
        for (int hour = 0; hour < ProspectTable::hours; ++hour) {
            const double holed = std::exp(-ProspectTable::rings_m[ring] / 2);
            table_.at(ring, hour) = {2 - holed, holed};
        }
    table_.smooth();
}

/// A plane's hours 7 to 11 mirror 5 to 1.
void NextPutts::take(int ring, const std::array<Prospect, ProspectTable::hours>& found, int kept) {
    for (int hour = 0; hour < ProspectTable::hours; ++hour) {
        const int mirrored = std::clamp(ProspectTable::hours - hour, 0, kept - 1);
        table_.at(ring, hour) = found[hour < kept ? hour : mirrored];
    }
    table_.smooth();
}

}  // namespace dewtrail
