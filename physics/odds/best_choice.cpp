#include "physics/odds/best_choice.hpp"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <cmath>

#include "physics/odds/misses.hpp"
#include "physics/read/plane_line.hpp"
#include "physics/read/surface_line.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

/// What the player intends for one finish: the read, and how it moves with the slope seen.
struct Plan {
    double past_m;
    Stroke stroke;
    SlopeSensitivity sensitivity;
};

std::optional<Stroke> stroke_for(const Putt& putt) {
    const auto* plane = dynamic_cast<const Plane*>(putt.surface.get());
    if (plane && putt.conditions.plain()) {
        const auto lines =
            lines_on_plane(plane->gradient(), putt.resistance, putt.line(), putt.finish);
        return lines.strokes.empty() ? std::nullopt : std::optional(lines.strokes.front());
    }
    constexpr double tolerance = 1e-8;
    const auto lines = lines_on_surface(putt, tolerance, false);
    return lines.strokes.empty() ? std::nullopt : std::optional(lines.strokes.front());
}

std::optional<Plan> plan_for(Putt putt, double past_m) {
    putt.finish = Finish::past(past_m);
    const auto stroke = stroke_for(putt);
    if (!stroke) return std::nullopt;
    const auto sensitivity = read_slope_sensitivity(putt, *stroke);
    if (!sensitivity) return std::nullopt;
    return Plan{past_m, *stroke, *sensitivity};
}

class Search {
  public:
    Search(const Putt& putt, const Scatter& scatter, const NextPutts& next)
        : putt_(putt), scatter_(scatter), next_(next) {}

    bool prepare(const std::vector<double>& finishes_m) {
        for (const double past : finishes_m)
            if (auto plan = plan_for(putt_, past)) plans_.push_back(*plan);
        if (plans_.empty()) return false;
        StrokeWindow window = window_of(spread(plans_.front(), 0));
        for (const Plan& plan : plans_) window = joined(window, window_of(spread(plan, 0)));
        map_ = StrokeMap::make(putt_, around(), window);
        return map_.has_value();
    }

    std::vector<PlayedChoice> table() const {
        std::vector<PlayedChoice> rows;
        for (const Plan& plan : plans_) rows.push_back(played(plan, 0));
        return rows;
    }

    std::optional<PlayedChoice> plain(double past_m) const {
        const auto plan = plan_for(putt_, past_m);
        if (!plan) return std::nullopt;
        return played(*plan, 0);
    }

    /// Finish and aim in turn, from the best finish of the table. `cost` of a spread.
    template <class Cost>
    PlayedChoice best(Cost cost) const {
        const auto cost_of = [&](const Plan& plan, double aim) {
            return cost(*map_, spread(plan, aim));
        };
        std::size_t start = 0;
        double least = HUGE_VAL;
        for (std::size_t i = 0; i < plans_.size(); ++i)
            if (const double here = cost_of(plans_[i], 0); here < least) {
                start = i;
                least = here;
            }
        Plan plan = plans_[start];
        const double lo = plans_[start > 0 ? start - 1 : 0].past_m;
        const double hi = plans_[std::min(start + 1, plans_.size() - 1)].past_m;
        double aim = 0;
        for (int round = 0; round < 2; ++round) {
            aim = minimum([&](double x) { return cost_of(plan, x); }, -1.5, 1.5, aim);
            if (!(lo < hi)) break;
            const auto by_past = [&](double past) {
                const auto tried = plan_for(putt_, past);
                return tried ? cost_of(*tried, aim) : HUGE_VAL;
            };
            plan = plan_for(putt_, minimum(by_past, lo, hi, plan.past_m)).value_or(plan);
        }
        return played(plan, aim);
    }

  private:
    /// Brent's minimum, or `before` where that is better still (the table's ends).
    template <class F>
    static double minimum(F f, double lo, double hi, double before) {
        std::uintmax_t most = 14;
        const auto [x, value] = boost::math::tools::brent_find_minima(f, lo, hi, 12, most);
        return value < f(before) ? x : before;
    }

    /// `aim`: right of the read, in standard deviations of the start angle.
    StrokeSpread spread(const Plan& plan, double aim) const {
        const double level =
            level_roll_m(plan.stroke.speed_m_s, putt_.resistance, putt_.conditions);
        StrokeSpread result =
            stroke_spread(plan.stroke.angle_rad, level, scatter_, plan.sensitivity);
        result.angle_rad += aim * std::sqrt(result.covariance(0, 0));
        return result;
    }

    PlayedChoice played(const Plan& plan, double aim) const {
        const StrokeSpread meant = spread(plan, aim);
        const double shift = meant.angle_rad - plan.stroke.angle_rad;
        return {plan.past_m,
                shift,
                {meant.angle_rad, plan.stroke.speed_m_s},
                meant.level_roll_m,
                odds(*map_, meant, next_)};
    }

    /// A stroke that drops, to start the map from: the softest that is not dying.
    Stroke around() const {
        for (const Plan& plan : plans_)
            if (plan.past_m > 0.05) return plan.stroke;
        return plans_.back().stroke;
    }

    const Putt& putt_;
    const Scatter& scatter_;
    const NextPutts& next_;
    std::vector<Plan> plans_;
    std::optional<StrokeMap> map_;
};

}  // namespace

std::vector<double> usual_finishes_m() {
    std::vector<double> finishes;
    for (int inches = 0; inches <= 36; inches += 3) finishes.push_back(inches * metres_per_inch);
    return finishes;
}

std::optional<BestChoice> best_choice(const Putt& putt, const Scatter& scatter,
                                      const NextPutts& next,
                                      const std::vector<double>& finishes_m) {
    Search search(putt, scatter, next);
    if (!search.prepare(finishes_m)) return std::nullopt;
    BestChoice result;
    result.by_past = search.table();
    if (putt.finish.kind == Finish::Kind::past) result.plain = search.plain(putt.finish.value);
    result.fewest_putts = search.best([&](const StrokeMap& map, const StrokeSpread& spread) {
        return play(map, spread, next.table(), fine).putts;
    });
    result.most_holed = search.best([](const StrokeMap& map, const StrokeSpread& spread) {
        return -chance_to_hole(map, spread);
    });
    return result;
}

}  // namespace dewtrail
