/// Random putts over the whole range of inputs: every one must end in a verified read or in a
/// stated reason, without an exception, a NaN or a hang.
///
///     dewtrail_soak [N = 10000] [seed = 1] [STATE]
///
/// One read in a hundred is rolled again by GSL. Prints counts; exit code 1 if a promise is broken,
/// with the putts that broke it on stderr. With a STATE file what was counted is saved after every
/// thousand putts, and a later run of that seed goes on from there.

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <exception>
#include <filesystem>
#include <fstream>
#include <memory>
#include <string>
#include <vector>

#include "greens/green_file.hpp"
#include "physics/read/read.hpp"
#include "physics/roll/green_speed.hpp"
#include "tests/support/counted_surface.hpp"
#include "tests/support/gsl_roll.hpp"
#include "tests/support/putts.hpp"
#include "tests/support/random.hpp"

namespace {

using namespace dewtrail;

constexpr double share_on_greens = 0.3, share_in_full = 0.1;
/// How often a read may ask the ground, some ten times what the slowest known does: more is a hang.
/// Told by count, not by clock, which sanitizers and a busy machine stretch.
constexpr long asked_by_a_hang = 100'000'000;
constexpr int most_putts_told = 20;
constexpr long block = 1000;  ///< putts that follow from one seed
/// GSL rolls with an error of its own, far below the promise.
constexpr double share_by_gsl = 0.01, most_gsl_miss_m = 1.05 * most_miss_m;
/// Friction over slope from which a plane must have its read. Nearer to 1 the last metre past the
/// hole takes minutes and a nanometre at the start decides where it ends: too delicate may be the
/// answer.
constexpr double least_k = 1.001;

struct Dealt {
    Putt putt;
    std::shared_ptr<const oracle::CountedSurface> counted;  ///< on greens only
    ReadOptions options;
    const char* where = "plane";
};

class Dealer {
  public:
    explicit Dealer(std::uint64_t seed) : seed_(seed), random_(seed) {
        for (const std::string& name : known_greens({oracle::greens_folder()}))
            greens_.push_back(oracle::shipped_green(name));
    }

    /// Every block is dealt by a stream of its own.
    void begin_block(long number) {
        random_ = oracle::Random(seed_ * 1'000'003 + static_cast<std::uint64_t>(number));
    }
    bool chance(double p) { return random_.chance(p); }

    Dealt deal() {
        Dealt dealt;
        dealt.options.look_for_others = false;
        dealt.options.room = dealt.options.costs = random_.chance(share_in_full);
        if (random_.chance(share_on_greens))
            on_a_green(dealt);
        else
            on_a_plane(dealt.putt);
        dealt.putt.resistance = resistance_of_stimp(random_.between(3, 18) * metres_per_foot);
        dealt.putt.finish = finish();
        return dealt;
    }

  private:
    /// One in ten level, one in five on a whole clock hour: the exact cases matter most.
    void on_a_plane(Putt& putt) {
        const double slope = random_.chance(0.1) ? 0 : random_.between(0, 0.2);
        const double clock =
            random_.chance(0.2) ? static_cast<double>(random_.below(12)) : random_.between(0, 12);
        putt.surface = std::make_shared<Plane>(Vec2(0, slope));
        putt.ball = random_.log_between(0.15, 40) * along_bearing(clock * M_PI / 6);
    }

    void on_a_green(Dealt& dealt) {
        const Green& green = greens_[random_.below(greens_.size())];
        dealt.where = green.name.c_str();
        dealt.counted = std::make_shared<oracle::CountedSurface>(green.surface);
        dealt.putt.surface = dealt.counted;
        dealt.putt.outline = std::make_shared<Outline>(green.outline);
        dealt.putt.hole = inside(green.outline, hole_radius_m);
        do dealt.putt.ball = inside(green.outline, 0);
        while (dealt.putt.distance_m() < 0.15);
    }

    Vec2 inside(const Outline& outline, double by_m) {
        while (true) {
            const Vec2 p(random_.between(-2, 30), random_.between(-2, 30));
            if (outline.inside_by(p) > by_m) return p;
        }
    }

    Finish finish() {
        if (random_.chance(0.2)) return Finish::past(0);
        if (random_.chance(0.05)) return Finish::hole_speed(0);
        return random_.chance(0.5) ? Finish::past(random_.between(0, 3))
                                   : Finish::hole_speed(random_.between(0, 3));
    }

    std::uint64_t seed_;
    oracle::Random random_;
    std::vector<Green> greens_;
};

bool finite(double x) {
    return std::isfinite(x);
}
bool finite(const std::optional<double>& x) {
    return !x || finite(*x);
}
bool finite(const PlayerPoint& p) {
    return finite(p.along_m) && finite(p.offset_m);
}
bool finite(const std::optional<PlayerPoint>& p) {
    return !p || finite(*p);
}

template <class... Values>
bool all_finite(const Values&... values) {
    return (finite(values) && ...);
}

bool all_numbers(const Read& r) {
    const bool room = !r.room || all_finite(r.room->angle_lo_rad, r.room->angle_hi_rad,
                                            r.room->pace_lo, r.room->pace_hi);
    return room &&
           all_finite(r.stroke.angle_rad, r.stroke.speed_m_s, r.level_roll_m, r.level_putt_m,
                      r.start_spot, r.aim_offset_m, r.stand_in_hole, r.apex, r.line_above_apex_m,
                      r.arrival_speed_m_s, r.arrival_angle_rad, r.arrival_time_s, r.past_m) &&
           all_finite(r.entry.speed_m_s, r.entry.offset_m, r.entry.time_s, r.entry.clock_rad,
                      r.entry.limit_m_s, r.costs.aim_m_per_slope, r.costs.aim_m_per_stimp_m,
                      r.costs.level_putt_m_per_slope, r.costs.level_putt_m_per_stimp_m,
                      r.check.miss_m, r.check.finish_error_m, r.check.finish_error_m_s);
}

bool all_numbers(const NoLine& n) {
    // Level ground has friction over slope infinite, which is a number one can state.
    const bool k = !n.friction_over_slope || *n.friction_over_slope > 0;
    return k &&
           all_finite(n.holds_up_to_slope, n.least_arrival_m_s, n.nearest_finish, n.check_miss_m);
}

bool verified(const Read& r) {
    return r.check.miss_m <= most_miss_m &&
           r.check.finish_error_m.value_or(0) <= most_finish_error_m &&
           r.check.finish_error_m_s.value_or(0) <= most_finish_error_m_s &&
           (r.check.finish_error_m || r.check.finish_error_m_s);
}

/// Columns: bare planes, greens.
struct Count {
    long on[2] = {0, 0};
    long& operator[](bool green) { return on[green]; }
};

class Soak {
  public:
    explicit Soak(std::uint64_t seed) : dealer_(seed) {}

    /// How many were counted in a run before; none if the file is another's or an older program's.
    long resume(const std::filesystem::path& state, long seed) {
        std::ifstream in(state);
        long saved_seed = 0, done = 0;
        if (!(in >> saved_seed >> done) || saved_seed != seed) return 0;
        const Soak fresh = *this;
        for (Count* count : counts()) in >> count->on[0] >> count->on[1];
        in >> slowest_s_[0] >> slowest_s_[1] >> most_asked_ >> broken_;
        if (in) return done;
        *this = fresh;
        return 0;
    }
    void save(const std::filesystem::path& state, long seed, long done) {
        const std::filesystem::path part = state.string() + ".part";
        {
            std::ofstream out(part);
            out << seed << ' ' << done << '\n';
            for (const Count* count : counts()) out << count->on[0] << ' ' << count->on[1] << '\n';
            out << slowest_s_[0] << ' ' << slowest_s_[1] << ' ' << most_asked_ << ' ' << broken_
                << '\n';
            if (!out.flush()) return;  // a full disk: the last whole one stays
        }
        std::filesystem::rename(part, state);
    }

    void begin_block(long number) { dealer_.begin_block(number); }

    void one() {
        const Dealt dealt = dealer_.deal();
        const bool green = dealt.putt.outline != nullptr;
        const std::clock_t start = std::clock();
        try {
            judge(dealt, green, read(dealt.putt, dealt.options));
        } catch (const std::exception& e) {
            breaks(dealt, exceptions_[green], e.what());
        }
        const double took = double(std::clock() - start) / CLOCKS_PER_SEC;
        if (took > slowest_s_[green]) slowest_s_[green] = took;
        const long asked = dealt.counted ? dealt.counted->asked() : 0;
        most_asked_ = std::max(most_asked_, asked);
        if (asked > asked_by_a_hang) breaks(dealt, hangs_[green], "asked the ground too often");
        ++putts_[green];
    }

    bool broken() const { return broken_; }

    void print() const {
        std::printf("%-44s %10s %10s\n", "", "planes", "greens");
        row("putts", putts_);
        row("verified reads", reads_);
        row("  of these with room and costs", in_full_);
        row("no line: never stops", none_[0]);
        row("no line: always faster than asked", none_[1]);
        row("no line: leaves the green", none_[2]);
        row("no line: none found", none_[3]);
        row("no line: check failed", none_[4]);
        row("reads whose roll ran out of steps", budget_);
        row("unread though the plane holds the ball", unread_);
        row("unverified reads", unverified_);
        row("neither read nor reason", silent_);
        row("NaN or infinite", nan_);
        row("exceptions", exceptions_);
        row("hangs", hangs_);
        row("rolled again by GSL", gsl_);
        row("  of these off by more than was promised", gsl_off_);
        std::printf("%-44s %8.2fms %8.2fms\n", "slowest read", 1e3 * slowest_s_[0],
                    1e3 * slowest_s_[1]);
        std::printf("%-44s %10s %10ld\n", "most questions to the ground", "", most_asked_);
    }

  private:
    static void row(const char* name, const Count& count) {
        std::printf("%-44s %10ld %10ld\n", name, count.on[0], count.on[1]);
    }

    void judge(const Dealt& dealt, bool green, const ReadResult& result) {
        if (result.lines.empty() != result.none.has_value())
            breaks(dealt, silent_[green], "neither read nor reason, or both");
        for (const Read& line : result.lines) {
            if (!all_numbers(line)) breaks(dealt, nan_[green], "NaN in a read");
            if (!verified(line)) breaks(dealt, unverified_[green], "unverified read");
            budget_[green] += line.roll.end == RollEnd::budget_used_up;
        }
        if (!result.lines.empty() && dealer_.chance(share_by_gsl))
            judge_by_gsl(dealt, green, result.lines[0]);
        reads_[green] += !result.lines.empty();
        in_full_[green] += !result.lines.empty() && dealt.options.room;
        if (result.none) judge_none(dealt, green, *result.none);
    }

    /// A second way to the same roll, until just past the hole.
    void judge_by_gsl(const Dealt& dealt, bool green, const Read& line) {
        oracle::GslOptions options;
        options.hole = dealt.putt.hole;
        options.most_time_s = line.arrival_time_s + 0.3;
        const oracle::GslRoll roll = oracle::gsl_roll(*dealt.putt.surface, dealt.putt.resistance,
                                                      dealt.putt.launch(line.stroke), options);
        // A line that comes round may turn away once on its way, and a dying ball ends at the hole.
        double miss_m = (roll.last.at - dealt.putt.hole).norm();
        if (roll.pass) miss_m = std::min(miss_m, (roll.pass->at - dealt.putt.hole).norm());
        ++gsl_[green];
        if (miss_m > most_gsl_miss_m)
            breaks(dealt, gsl_off_[green], "GSL's roll does not pass the hole's centre");
    }

    void judge_none(const Dealt& dealt, bool green, const NoLine& none) {
        if (!all_numbers(none)) breaks(dealt, nan_[green], "NaN in a reason");
        ++none_[static_cast<int>(none.why)][green];
        // A plane that holds the ball has a line for every finish; on a green it may leave the
        // green.
        if (none.friction_over_slope.value_or(0) > least_k &&
            none.why != NoLine::Why::leaves_the_green)
            breaks(dealt, unread_[green], "the plane holds the ball, but there is no read");
    }

    void breaks(const Dealt& dealt, long& count, const char* what) {
        broken_ = true;
        ++count;
        if (++told_ > most_putts_told) return;
        const Putt& p = dealt.putt;
        const Vec2 up = p.surface->at(p.hole.x(), p.hole.y()).gradient();
        std::fprintf(stderr,
                     "\n%s: %s, gradient at hole %.17g %.17g, resistance %.17g, ball %.17g %.17g, "
                     "hole %.17g %.17g, %s %.17g",
                     what, dealt.where, up.x(), up.y(), p.resistance, p.ball.x(), p.ball.y(),
                     p.hole.x(), p.hole.y(),
                     p.finish.kind == Finish::Kind::past ? "past" : "hole speed", p.finish.value);
    }

    std::vector<Count*> counts() {
        std::vector<Count*> all{&putts_,  &reads_, &in_full_,    &budget_, &unread_, &unverified_,
                                &silent_, &nan_,   &exceptions_, &hangs_,  &gsl_,    &gsl_off_};
        for (Count& count : none_) all.push_back(&count);
        return all;
    }

    Dealer dealer_;
    Count gsl_, gsl_off_;
    Count putts_, reads_, in_full_, none_[5], budget_, unread_, unverified_, silent_, nan_,
        exceptions_, hangs_;
    double slowest_s_[2] = {0, 0};
    long most_asked_ = 0;
    bool broken_ = false;
    int told_ = 0;
};

long number(int argc, char** argv, int i, long otherwise) {
    return i < argc ? std::strtol(argv[i], nullptr, 10) : otherwise;
}

void progress(long done, long all) {
    constexpr int width = 40;
    const int full = static_cast<int>(width * done / all);
    std::fprintf(stderr, "\r[%s%s] %ld of %ld", std::string(full, '#').c_str(),
                 std::string(width - full, '.').c_str(), done, all);
}

}  // namespace

int main(int argc, char** argv) {
    const long putts = number(argc, argv, 1, 10'000), seed = number(argc, argv, 2, 1);
    if (putts <= 0 || seed < 0) {
        std::fprintf(stderr, "usage: dewtrail_soak [putts > 0] [seed >= 0] [state file]\n");
        return 2;
    }
    const char* state = argc > 3 ? argv[3] : nullptr;
    Soak soak(static_cast<std::uint64_t>(seed));
    const long done = state ? soak.resume(state, seed) : 0;
    const std::clock_t start = std::clock();
    for (long i = done; i < putts; ++i) {
        if (i % block == 0) {
            if (state && i > done) soak.save(state, seed, i);
            soak.begin_block(i / block);
            progress(i, putts);
        }
        soak.one();
    }
    if (state && putts % block == 0) soak.save(state, seed, putts);
    progress(putts, putts);
    std::fprintf(stderr, "\n");
    std::printf("seed %ld\n", seed);
    soak.print();
    std::printf("%-44s %9.1fs\n", "time on one core",
                double(std::clock() - start) / CLOCKS_PER_SEC);
    return soak.broken() ? 1 : 0;
}
