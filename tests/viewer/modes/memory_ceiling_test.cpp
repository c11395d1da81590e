/// What a long session keeps in memory: what was typed and seen, not all that followed from it.

#include <malloc.h>

#include <catch2/catch.hpp>
#include <random>

#include "tests/support/temporary_folder.hpp"
#include "viewer/modes/compare/compare_mode.hpp"
#include "viewer/modes/drawn_mode.hpp"
#include "viewer/modes/green/green_mode.hpp"
#include "viewer/modes/measure/measure_mode.hpp"
#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/modes/review/review_mode.hpp"

using namespace dewtrail;

namespace {

constexpr double mib = 1024 * 1024;

/// What the program has asked for and not given back.
double in_use_mib() {
    const struct mallinfo2 all = mallinfo2();
    return static_cast<double>(all.uordblks + all.hblkhd) / mib;
}

/// Keys and pointer at random, with a frame now and then, as somebody does who leans on the desk.
class Visitor {
  public:
    Visitor(Shell& shell, unsigned seed) : shell_(shell), random_(seed) {}

    void go_on(int events) {
        for (int i = 0; i < events; ++i) {
            one();
            shell_.take_wishes();
            shell_.take_actions();
            if (i % 4 == 0) shell_.frame(type_width);
            shell_.advance(0.25);
        }
        while (shell_.typing()) shell_.press({key::escape});
        shell_.frame(type_width);
    }

  private:
    int below(int n) { return std::uniform_int_distribution<int>(0, n - 1)(random_); }

    Vec2 somewhere() {
        const Layout& l = shell_.layout();
        const int x = below(static_cast<int>(l.width)), y = below(static_cast<int>(l.height));
        return Vec2(x, y);
    }

    void one() {
        const int kind = below(10);
        if (kind < 5) {
            constexpr const char letters[] = "abcdefghijklmnopqrstuvwxyz0123456789.[]+-?% ";
            const char letter = letters[below(sizeof letters - 1)];
            shell_.press({letter == ' ' ? key::space : letter, below(8) == 0, below(8) == 0});
            shell_.enter(std::string(1, letter));
        } else if (kind < 8) {
            shell_.press({256 + below(14), below(8) == 0, below(8) == 0});
        } else {
            const Vec2 from = somewhere(), to = somewhere();
            shell_.pointer_pressed(from, Button::left, {});
            for (const double share : {0.5, 1.0})
                shell_.pointer_moved(from + share * (to - from), {});
            shell_.pointer_released(to);
        }
    }

    Shell& shell_;
    std::mt19937 random_;
};

/// A green of so many spots, and a dense table of heights.
GreenDraft dense_draft(int heights) {
    GreenDraft draft;
    draft.heights = [&] {
        std::vector<HeightReading> all;
        for (int i = 0; i < heights; ++i) {
            const int row = i / 40;
            const Vec2 at(i % 40 * 0.5, row * 0.5);
            all.push_back({at, 0.02 * at.y() + 0.05 * std::sin(at.x() / 3), 0.005});
        }
        return std::make_shared<const std::vector<HeightReading>>(all);
    }();
    draft.holes = {{"hole", Vec2(6, 6)}};
    return draft;
}

}  // namespace

TEST_CASE("Undo of a survey keeps what was typed, not the surfaces fitted to it", "[ceiling]") {
    GreenStart start;
    start.draft = dense_draft(1200);
    InShell<GreenMode> d(quiet_look(), start);
    d.shell.frame(type_width);
    REQUIRE(d.mode.fitted());
    d.shell.press({'b'});
    // The factors of the two fits that were asked last are kept.
    for (int i = 0; i < 4; ++i) d.shell.press({i % 2 ? key::left : key::right});
    const double before = in_use_mib();
    for (int i = 0; i < 40; ++i) d.shell.press({i % 2 ? key::left : key::right});
    CHECK(d.shell.undo_depth() >= 40);
    CHECK(in_use_mib() - before < 1);
}

TEST_CASE("Many surveys that are remembered hold the factors of two", "[ceiling]") {
    Survey survey;
    survey.heights = *dense_draft(1200).heights;
    std::vector<SurfaceFit> kept;
    const auto fit_one = [&] {
        survey.heights[0].height_m += 0.001;
        kept.push_back(fit_survey(survey));
        return kept.back().slope_sd({5, 5}, 0);
    };
    fit_one(), fit_one(), fit_one();
    const double first = kept[0].slope_sd({5, 5}, 0), before = in_use_mib();
    for (int i = 0; i < 10; ++i) fit_one();
    CHECK(in_use_mib() - before < 30);            // seven and a half each with their factors
    CHECK(kept[0].slope_sd({5, 5}, 0) == first);  // made once more, to the last bit
}

TEST_CASE("A long random session stays below a ceiling in every mode", "[ceiling]") {
    const TemporaryFolder folder;
    PractiseStart practise;
    practise.memory_folder = folder / "practise";
    practise.plan.seed = 7;
    practise.plan.date = "2026-05-01";
    practise.green_folders = {std::filesystem::path(DEWTRAIL_SOURCE_DIR) / "greens"};
    ReviewStart review;
    review.memory_folder = folder / "review";
    GreenStart green;
    green.draft = draft_of(*shipped_green("meadow"));
    ReadStart read = quiet_start();
    read.greens = [] { return std::vector<std::string>{"bench", "meadow"}; };
    read.load = shipped_green;
    std::vector<std::unique_ptr<Shell>> shells;
    shells.push_back(Shell::with<ReadMode>(quiet_look(), read));
    shells.push_back(Shell::with<CompareMode>(quiet_look(), CompareStart{}));
    shells.push_back(Shell::with<PractiseMode>(quiet_look(), practise));
    shells.push_back(Shell::with<ReviewMode>(quiet_look(), review));
    shells.push_back(Shell::with<GreenMode>(quiet_look(), green));
    shells.push_back(
        Shell::with<MeasureMode>(quiet_look(), MeasureStart{folder / "measure", {}, 5}));
    for (const auto& shell : shells) {
        shell->frame(type_width);
        Visitor visitor(*shell, 5);
        visitor.go_on(300);  // what is made once: tables, fonts, the first greens
        const double before = in_use_mib();
        visitor.go_on(1500);
        INFO(words_for(shell->name()) << ": " << before << " MiB, then " << in_use_mib());
        CHECK(in_use_mib() - before < 12);
    }
}
