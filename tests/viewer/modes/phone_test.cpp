#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>

#include "viewer/modes/every_mode.hpp"
#include "viewer/modes/faults.hpp"
#include "viewer/paper/screen.hpp"

/// Every mode on the screens of phones and tablets, touched by fingers.
using namespace dewtrail;

namespace {

const Sizes screens{{360, 640}, {390, 844}, {844, 390}, {740, 360}, {768, 1024}};
constexpr double least_type_px = 13;

/// Its texts as they are seen: what a clip cuts off, or a panel painted later covers, is gone.
std::vector<Seen> seen_texts(const Frame& frame, const Layout& l) {
    const Rect all{0, 0, l.width, l.height};
    Rect clip = all;
    std::vector<Seen> texts;
    for (const Shape& shape : frame.picture) {
        if (const auto* to = std::get_if<Clip>(&shape)) clip = to->box.w > 0 ? to->box : all;
        if (const auto* polygon = std::get_if<Polygon>(&shape); polygon && polygon->colour.a == 255)
            std::erase_if(texts, [&](const Seen& s) {
                const auto box = corners(s);
                return polygon->points.size() == 4 &&
                       is_within(box, Rect{polygon->points[0].x(), polygon->points[0].y(),
                                           polygon->points[2].x() - polygon->points[0].x(),
                                           polygon->points[2].y() - polygon->points[0].y()});
            });
        const auto* text = std::get_if<Text>(&shape);
        if (!text || text->words.empty() || text->colour.a == 0) continue;
        const Seen s = seen(*text);
        if (rect_of(*text, type_width).meets(clip)) texts.push_back(s);
    }
    return texts;
}

std::vector<std::string> faults_of(const Frame& frame, const Layout& l) {
    std::vector<std::string> found;
    const std::vector<Seen> texts = seen_texts(frame, l);
    const Rect screen{0, 0, l.width, l.height};
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const std::string& words = texts[i].text.words;
        if (!is_within(corners(texts[i]), screen))
            found.push_back("'" + words + "' leaves the screen");
        if (texts[i].text.size < least_type_px - 0.05)
            found.push_back("'" + words + "' is " + std::to_string(texts[i].text.size) + " px");
        for (std::size_t j = 0; j < i; ++j)
            if (meet(corners(texts[i]), corners(texts[j])))
                found.push_back("'" + texts[j].text.words + "' meets '" + words + "'");
    }
    return found;
}

bool is_same(const Target& a, const Target& b) {
    const auto is_value = [](What what) { return what == What::field || what == What::figure; };
    return a.index == b.index && (a.what == b.what || (is_value(a.what) && is_value(b.what)));
}

/// Targets that a finger of 44 px about their middle, moved inside the screen, does not meet.
std::vector<std::string> small_targets(const Targets& targets, const Layout& l) {
    std::vector<std::string> found;
    for (const Target& target : targets) {
        if (target.what == What::note || target.what == What::sheet || target.what == What::row)
            continue;
        const double half = finger_px / 2 - 0.01;
        const Vec2 middle = target.hit.centre()
                                .cwiseMax(Vec2(half, half))
                                .cwiseMin(Vec2(l.width - half, l.height - half));
        for (const Vec2& way : {Vec2(-1, 0), Vec2(1, 0), Vec2(0, -1), Vec2(0, 1), Vec2(0, 0)}) {
            const auto met = touched_target(targets, middle + half * way);
            if (met && is_same(*met, target)) continue;
            found.push_back(
                std::to_string(static_cast<int>(target.what)) + "/" + std::to_string(target.index) +
                " at " + std::to_string(std::lround(middle.x())) + "," +
                std::to_string(std::lround(middle.y())) + " loses " +
                std::to_string(std::lround(way.x())) + "," + std::to_string(std::lround(way.y())) +
                (met ? " to " + std::to_string(static_cast<int>(met->what)) + "/" +
                           std::to_string(met->index)
                     : ""));
        }
    }
    return found;
}

/// Where DEWTRAIL_PICTURES names a folder, to be looked at.
void keep_picture(Shell& shell, const std::string& name) {
    const char* folder = std::getenv("DEWTRAIL_PICTURES");
    if (!folder) return;
    shell.forget_ground();
    std::ofstream(std::string(folder) + "/" + name + ".png", std::ios::binary) << screen_png(shell);
}

void look_at(Shell& shell, const std::string& state) {
    for (const auto& [w, h] : screens)
        for (const bool dusk : {false, true}) {
            if (dusk != (shell.appearance().theme == Theme::dusk)) shell.press({'d'});
            shell.resize(w, h);
            shell.advance(2);
            shell.frame(type_width);
            const Frame frame = shell.frame(type_width);
            const std::string name = std::string(words_for(shell.name())) + "_" + state + "_" +
                                     std::to_string(std::lround(w)) + "x" +
                                     std::to_string(std::lround(h)) + (dusk ? "_dusk" : "");
            INFO(name);
            CHECK(faults_of(frame, shell.layout()) == std::vector<std::string>{});
            CHECK(small_targets(shell.targets(), shell.layout()) == std::vector<std::string>{});
            keep_picture(shell, name);
        }
}

}  // namespace

TEST_CASE("on every phone and tablet no text is cut or meets another, and fingers find their way",
          "[phone]") {
    EveryMode every;
    for (const auto& shell : every.shells) look_at(*shell, "before");
    every.shells[0]->press({'n'});
    look_at(*every.shells[0], "brief");
    Shell& practise = *every.shells[2];
    practise.press({key::enter});
    practise.advance(20);
    practise.frame(type_width);
    look_at(practise, "told");
    // A lesson, from its beginning to its end.
    practise.press({'t'});
    look_at(practise, "lesson");
    for (int page = 1; page < 4; ++page) {
        for (int i = 0; i < 4; ++i) practise.press({key::down});
        look_at(practise, "lesson_" + std::to_string(page));
    }
}

TEST_CASE("on every phone and tablet a thumb chooses a pupil and adds one", "[phone]") {
    EveryMode every;
    Shell& shell = *every.shells[0];
    const auto look = [&](const std::string& sheet, What what) {
        for (const auto& [w, h] : screens) {
            shell.resize(w, h);
            shell.frame(type_width);
            INFO(sheet << " " << w << " x " << h);
            REQUIRE(find_target(shell.targets(), what));
            CHECK(small_targets(shell.targets(), shell.layout()) == std::vector<std::string>{});
            keep_picture(shell, fmt::format("{}_{}x{}", sheet, w, h));
        }
    };
    shell.open_pupils({"Anna", "Ben", "A pupil with a name of forty letters at most"});
    look("pupils", What::page);
    shell.press({key::up});
    shell.press({key::enter});
    look("new_pupil", What::new_name);
}
