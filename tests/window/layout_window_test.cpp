/// The layout, judged with the letters that the window draws: hinted, and kerned by pairs.

#include "tests/viewer/modes/faults.hpp"
#include "viewer/modes/compare/compare_mode.hpp"
#include "viewer/modes/green/green_mode.hpp"
#include "viewer/window/fonts.hpp"

using namespace dewtrail;

namespace {

void use_the_windows_letters() {
    static const Fonts fonts;
    fonts_in_use() = [](Face face, double size, std::string_view words) {
        return fonts.width(face, size, words);
    };
}

}  // namespace

TEST_CASE("with the window's letters nothing overlaps in Read") {
    use_the_windows_letters();
    for (const double clock : {1.5, 4.3, 7.7, 12.0})
        for (const char view : {'p', 'e'}) {
            ReadStart start = quiet_start();
            start.setup.clock_h = clock;
            Drawn d(start);
            d.press({{view}});
            INFO(clock << " " << view);
            check_layout(d);
        }
    ReadStart on_green = quiet_start();
    put_on_green(on_green.setup, shipped_green("meadow"));
    Drawn d(on_green);
    check_layout(d);
}

TEST_CASE("with the window's letters nothing overlaps in Compare and Green") {
    use_the_windows_letters();
    DrawnMode<CompareMode> compare(quiet_look(), CompareStart{});
    check_layout(compare, without_note);
    GreenStart start;
    start.draft = draft_of(*shipped_green("meadow"));
    DrawnMode<GreenMode> green(quiet_look(), start);
    check_layout(green);
}
