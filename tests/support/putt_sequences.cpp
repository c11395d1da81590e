#include "support/putt_sequences.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numbers/random_normals.hpp"
#include "physics/read/read.hpp"

namespace dewtrail::oracle {
namespace {

class Sequences {
  public:
    Sequences(const NextPutts& next, const Scatter& scatter, std::uint64_t seed)
        : next_(next), scatter_(scatter), normals_(seed) {}

    /// The putts that one stroke of this spread and those after it take.
    int putts(const Putt& putt, const StrokeSpread& spread, int most = 9) {
        const LevelStroke stroke = drawn(spread);
        const StrokeRoller roller(putt);
        if (most == 0 || roller.margin(stroke.angle_rad, stroke.level_roll_m) > 0) return 1;
        Putt left = putt;
        left.ball = roller.rest(stroke.angle_rad, stroke.level_roll_m);
        if (left.distance_m() < tapped_in_m) return 2;
        if (!left.ball_on_green()) left.outline.reset();
        return 1 + putts(left, choice_from(left), most - 1);
    }

  private:
    static constexpr double tapped_in_m = 0.1;

    LevelStroke drawn(const StrokeSpread& spread) {
        const auto& C = spread.covariance;
        const double pace = std::sqrt(C(1, 1)), slant = C(0, 1) / pace;
        const auto [a, b] = normals_.pair();
        return {spread.angle_rad + slant * a + std::sqrt(C(0, 0) - slant * slant) * b,
                std::max(least_pace * spread.level_roll_m, spread.level_roll_m + pace * a)};
    }

    /// By logarithm of the distance and by angle.
    const Choice& nearest_choice(const Putt& putt) const {
        const ProspectTable& table = next_.table();
        const auto& choices = next_.choices();
        const int count = static_cast<int>(choices.size()), hours = count / table.used();
        int nearest = 0;
        double least = HUGE_VAL;
        for (int i = 0; i < count; ++i) {
            const Vec2 spot = table.place(i / hours, i % hours) - putt.hole;
            const double away = std::log(spot.norm() / putt.distance_m());
            const double round =
                std::remainder(bearing_of(spot) - bearing_of(-putt.line()), 2 * M_PI);
            const double apart = std::abs(away) + 2 * std::abs(round);
            if (apart < least) least = apart, nearest = i;
        }
        return choices[static_cast<std::size_t>(nearest)];
    }

    StrokeSpread choice_from(Putt& putt) const {
        constexpr double least_past_m = 0.02;  // dying is the hardest to solve
        const Choice& choice = nearest_choice(putt);
        putt.finish = Finish::past(std::max(least_past_m, choice.past_m));
        ReadOptions line_only;
        line_only.look_for_others = line_only.room = line_only.costs = false;
        const Read read = dewtrail::read(putt, line_only).lines.at(0);
        StrokeSpread spread = stroke_spread(read.stroke.angle_rad, read.level_roll_m, scatter_,
                                            read_slope_sensitivity(putt, read.stroke).value());
        spread.angle_rad += choice.aim * std::sqrt(spread.covariance(0, 0));
        return spread;
    }

    const NextPutts& next_;
    const Scatter& scatter_;
    RandomNormals normals_;
};

}  // namespace

RolledOut roll_out(const Putt& putt, const StrokeSpread& first, const NextPutts& next,
                   const Scatter& scatter, int sequences, std::uint64_t seed) {
    Sequences played(next, scatter, seed);
    double sum = 0, squares = 0;
    for (int i = 0; i < sequences; ++i) {
        const double putts = played.putts(putt, first);
        sum += putts;
        squares += putts * putts;
    }
    const double n = sequences, mean = sum / n;
    return {mean, std::sqrt((squares / n - mean * mean) / n)};
}

}  // namespace dewtrail::oracle
