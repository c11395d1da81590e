#include "viewer/comparison/compare_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/putt/putt_words.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double same_length_m = 1e-3, same_slope = 1e-6, same_clock_h = 1e-3;
constexpr double same_break = 0.03;                   // of the larger one
constexpr double straight_m = 0.5 * metres_per_inch;  // under this a putt is called straight
constexpr double hardly_m = 1.25 * metres_per_inch;   // under this a ratio says nothing
constexpr double much_more = 2;
constexpr double seen_time_s = 0.05, downhill_from = 0.0025;
constexpr double same_speed = 1e-3;

/// What sets two putts apart.
struct Differences {
    bool fall = false, stimp = false, finish = false, slope = false, distance = false;

    int count() const { return fall + stimp + finish + slope + distance; }
};

bool is_plane(const PlacedPutt& plan) {
    return dynamic_cast<const Plane*>(plan.putt.surface.get()) != nullptr;
}

Differences differences(const PlacedPutt& a, const PlacedPutt& b) {
    const auto clock_a = clock_of(a.setup), clock_b = clock_of(b.setup);
    Differences d;
    d.stimp = std::abs(a.setup.stimp_ft - b.setup.stimp_ft) > same_slope;
    d.finish = a.putt.finish.kind != b.putt.finish.kind ||
               std::abs(a.putt.finish.value - b.putt.finish.value) > same_length_m;
    d.slope = std::abs(a.putt.slope_at_hole() - b.putt.slope_at_hole()) > same_slope;
    d.distance = std::abs(a.putt.distance_m() - b.putt.distance_m()) > same_length_m;
    // Round the dial, so that 11:59 and 12:01 are near.
    d.fall = clock_a && clock_b ? std::abs(std::remainder(*clock_a - *clock_b, 12)) > same_clock_h
                                : std::abs(a.putt.mean_rise() - b.putt.mean_rise()) > same_slope;
    return d;
}

/// The two whose breaks differ most, and the rules about them.
class Pair {
  public:
    Pair(const Comparison& comparison, const Units& units)
        : more_(comparison.putts[comparison.difference->more]),
          less_(comparison.putts[comparison.difference->less]),
          parts_(comparison.difference->parts),
          units_(units) {}

    std::string sentence() const {
        if (is_same_break()) return same_words();
        if (less_.bend->break_m < straight_m) return contrast_words();
        const Differences d = differences(more_.plan, less_.plan);
        std::string words;
        if (d.count() == 1 && is_plane(more_.plan) && is_plane(less_.plan)) words = rule(d);
        return words.empty() ? any_words() : words;
    }

  private:
    std::string rule(const Differences& d) const {
        if (d.fall) return fall_words();
        if (d.stimp) return stimp_words();
        if (d.finish) return finish_sentence();
        return d.slope ? slope_words() : distance_words();
    }

    bool is_same_break() const {
        return parts_.whole_m < same_break * more_.bend->break_m ||
               more_.bend->break_m < straight_m;
    }
    bool is_time() const { return parts_.time_m >= parts_.pull_m(); }
    double longer_s() const { return more_.bend->time_s - less_.bend->time_s; }
    bool rolls_longer() const { return is_time() && longer_s() >= seen_time_s; }
    double ratio() const { return more_.bend->break_m / less_.bend->break_m; }
    bool has_ratio() const { return less_.bend->break_m >= hardly_m; }

    std::string same_words() const {
        const double a = more_.read->stroke.speed_m_s, b = less_.read->stroke.speed_m_s;
        const bool mirrored = more_.bend->break_m > straight_m &&
                              more_.read->stroke.angle_rad * less_.read->stroke.angle_rad < 0;
        if (std::abs(a - b) < same_speed * std::max(a, b))
            return mirrored ? "A mirror: the same break and pace, to the other side."
                            : "These two play the same.";
        if (shows_one_pace())
            return mirrored ? "Nearly a mirror: much the same break and pace, to the other side."
                            : "These two play much the same.";
        const ComparedPutt& firmer = a > b ? more_ : less_;
        return fmt::format("These two break the same; {} needs the firmer stroke.", firmer.name);
    }

    /// As the figures beside the sentence tell it.
    bool shows_one_pace() const {
        return more_.plan.setup.stimp_ft == less_.plan.setup.stimp_ft &&
               format_level_putt(more_.read->level_putt_m, units_) ==
                   format_level_putt(less_.read->level_putt_m, units_);
    }

    std::string contrast_words() const {
        return fmt::format("{}: breaks {}. {}: {}.", as_sentence(more_.name),
                           format_length(more_.bend->break_m, units_), as_sentence(less_.name),
                           small_break_words());
    }

    std::string small_break_words() const {
        const double small_m = less_.bend->break_m;
        if (small_m < straight_m) return "runs straight";
        return (ratio() < much_more ? "breaks " : "hardly breaks, ") +
               format_length(small_m, units_);
    }

    std::string fall_words() const {
        const bool downhill_more = more_.plan.putt.mean_rise() < less_.plan.putt.mean_rise();
        const bool slower = more_.read->stroke.speed_m_s < less_.read->stroke.speed_m_s;
        if (rolls_longer() && downhill_more && slower)
            return fmt::format(
                "{} the ball leaves slower and rolls {} longer, so the slope has longer to pull it "
                "sideways.",
                more_.plan.putt.mean_rise() < -downhill_from ? "Downhill" : "With less of a climb",
                time_difference_words(longer_s()));
        if (!is_time() && parts_.gravity_m >= parts_.friction_m && clock_of(more_.plan.setup))
            return fmt::format(
                "With the ball at {} more of the slope lies across the line, so it is pulled "
                "sideways harder.",
                format_clock(*clock_of(more_.plan.setup)));
        return "";
    }

    std::string stimp_words() const {
        if (!rolls_longer() || more_.plan.setup.stimp_ft < less_.plan.setup.stimp_ft) return "";
        return "On the faster green the ball rolls longer for the same finish, so it drifts "
               "further.";
    }

    std::string finish_sentence() const {
        const Finish &gentle = more_.plan.putt.finish, &firm = less_.plan.putt.finish;
        if (gentle.kind != firm.kind || firm.value < gentle.value || !rolls_longer()) return "";
        const std::string drifts = "Struck firmer it is there sooner, so it drifts less";
        if (!less_.read->room) return drifts + " – but it no longer drops.";
        const auto width = [](const Room& r) { return r.angle_hi_rad - r.angle_lo_rad; };
        const bool smaller =
            more_.read->room && width(*less_.read->room) < width(*more_.read->room);
        return drifts + (smaller ? " – but the hole plays smaller." : ".");
    }

    std::string slope_words() const {
        if (more_.plan.putt.slope_at_hole() < less_.plan.putt.slope_at_hole() ||
            !(less_.plan.putt.slope_at_hole() > 0) || !has_ratio())
            return "";
        return fmt::format("{} the slope, and {} the break.",
                           as_sentence(times_words(more_.plan.putt.slope_at_hole() /
                                                   less_.plan.putt.slope_at_hole())),
                           about_times_words(ratio()));
    }

    std::string distance_words() const {
        const double far = more_.plan.putt.distance_m() / less_.plan.putt.distance_m();
        if (!rolls_longer() || far < 1 || !has_ratio()) return "";
        return fmt::format("{} as far takes longer too: the break grows {}.",
                           as_sentence(times_words(far)), growth_words(ratio()));
    }

    static std::string growth_words(double ratio) { return fmt::format("{:.1f} times", ratio); }

    std::string any_words() const {
        if (!has_ratio()) return contrast_words();
        return fmt::format("{}: {} the break of {}, mostly because {}.", as_sentence(more_.name),
                           times_words(ratio()), less_.name, cause_words());
    }

    std::string cause_words() const {
        if (rolls_longer())
            return fmt::format("it rolls {} longer", time_difference_words(longer_s()));
        if (is_time()) return "it rolls a little longer";
        return parts_.gravity_m >= parts_.friction_m ? "the slope pulls it sideways harder"
                                                     : "friction holds its drift back less";
    }

    const ComparedPutt &more_, &less_;
    const BreakParts& parts_;
    Units units_;
};

std::string aimed_words(const ComparedPutt& putt, const Units& units) {
    const std::string end = outcome_phrase(outcome_of(putt.plan.putt, *putt.rolled), units);
    const auto share = putt.share_of_break();
    const std::string ball =
        putt.at_apex ? "A ball started at its own apex" : as_sentence(putt.name) + ", it";
    if (!share) return fmt::format("{} {}.", ball, end);
    if (*share < 0) return fmt::format("{} starts on the wrong side and {}.", ball, end);
    return fmt::format("{} plays {} of the break and {}.", ball, format_percent(*share), end);
}

std::string signed_length(double length_m, const Units& units) {
    return (length_m < 0 ? "−" : "+") + format_length(length_m, units);
}

}  // namespace

std::string times_words(double ratio) {
    constexpr double near = 0.015;
    const auto is = [&](double x) { return std::abs(ratio - x) < near * x; };
    if (is(2)) return "twice";
    if (is(3)) return "three times";
    if (is(4)) return "four times";
    for (const double x : {1.25, 1.5, 1.75, 2.5, 3.5})
        if (is(x)) return format_quarters(x) + " times";
    return fmt::format("{:.{}f} times", ratio, ratio < 10 ? 1 : 0);
}

std::string about_times_words(double ratio) {
    constexpr double near = 0.015, about = 0.13;
    for (const double x : {1.5, 2.0, 3.0, 4.0}) {
        if (std::abs(ratio - x) < near * x) return times_words(x);
        if (std::abs(ratio - x) < about * x)
            return fmt::format("a little {} than {}", ratio > x ? "more" : "less", times_words(x));
    }
    return times_words(ratio);
}

std::string time_difference_words(double time_s) {
    const double t = std::abs(time_s);
    if (std::abs(t - 0.5) < 0.05) return "half a second";
    if (std::abs(t - 1) < 0.05) return "a second";
    return format_time(t);
}

std::string comparison_sentence(const Comparison& comparison, const Units& units) {
    for (const ComparedPutt& putt : comparison.putts)
        if (!putt.read)
            return fmt::format("{}: {}", as_sentence(putt.name),
                               no_line_words(putt.plan, *putt.none, units));
    for (const ComparedPutt& putt : comparison.putts)
        if (putt.rolled) return aimed_words(putt, units);
    if (!comparison.difference) return "These have no breaks to compare.";
    return Pair(comparison, units).sentence();
}

std::string swap_sentence(const std::array<ComparedPutt, 2>& swapped, const Units& units) {
    const auto end = [&](const ComparedPutt& putt) {
        return outcome_phrase(outcome_of(putt.plan.putt, *putt.rolled), units);
    };
    return fmt::format("With the aims swapped: {} {}; {} {}.", swapped[0].name, end(swapped[0]),
                       swapped[1].name, end(swapped[1]));
}

std::string parts_words(const BreakParts& parts, const Units& units) {
    return fmt::format("{} from time, {} from the pull of the slope, {} from friction",
                       signed_length(parts.time_m, units), signed_length(parts.gravity_m, units),
                       signed_length(parts.friction_m, units));
}

}  // namespace dewtrail
