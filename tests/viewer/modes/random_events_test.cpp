#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <random>

#include "viewer/modes/every_mode.hpp"

/// Keys and clicks at random in every mode: nothing crashes, no printing key leads to another mode,
/// and what is on the screen is what a fresh drawing of the state shows.
using namespace dewtrail;

namespace {

bool at_same_place(const Vec2& a, const Vec2& b) {
    return a.x() == b.x() && a.y() == b.y();
}
bool same(const Points& a, const Points& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), at_same_place);
}
bool same(const Line& a, const Line& b) {
    return same(a.points, b.points) && a.width == b.width && a.colour == b.colour &&
           a.closed == b.closed;
}
bool same(const Polygon& a, const Polygon& b) {
    return same(a.points, b.points) && a.colour == b.colour;
}
bool same(const Disc& a, const Disc& b) {
    return at_same_place(a.centre, b.centre) && a.radius == b.radius && a.colour == b.colour;
}
bool same(const Mesh& a, const Mesh& b) {
    return std::equal(a.vertices.begin(), a.vertices.end(), b.vertices.begin(), b.vertices.end(),
                      [](const Mesh::Vertex& p, const Mesh::Vertex& q) {
                          return p.at.x() == q.at.x() && p.at.y() == q.at.y() &&
                                 p.colour == q.colour;
                      });
}
bool same(const Text& a, const Text& b) {
    return a.words == b.words && a.face == b.face && a.size == b.size &&
           at_same_place(a.at, b.at) && a.colour == b.colour && a.align == b.align &&
           a.turned_rad == b.turned_rad;
}
bool same(const Clip& a, const Clip& b) {
    return a.box == b.box;
}

bool same(const Shape& a, const Shape& b) {
    return a.index() == b.index() && std::visit(
                                         [&](const auto& shape) {
                                             using Kind = std::decay_t<decltype(shape)>;
                                             return same(shape, std::get<Kind>(b));
                                         },
                                         a);
}

std::string described(const Picture& picture, std::size_t i) {
    if (i >= picture.size()) return "the end";
    const auto* text = std::get_if<Text>(&picture[i]);
    if (const auto* disc = std::get_if<Disc>(&picture[i]))
        return fmt::format("disc at {:.2f}, {:.2f}", disc->centre.x(), disc->centre.y());
    return text ? "'" + text->words + "'" : "kind " + std::to_string(picture[i].index());
}

/// What differs first, in words; empty where nothing does.
std::string difference(const Picture& a, const Picture& b) {
    const std::size_t most = std::min(a.size(), b.size());
    std::size_t i = 0;
    while (i < most && same(a[i], b[i])) ++i;
    if (i == a.size() && i == b.size()) return "";
    return "shape " + std::to_string(i) + ": " + described(a, i) + ", and " + described(b, i);
}

class Fiddler {
  public:
    Fiddler(Shell& shell, unsigned seed) : shell_(shell), random_(seed) {
        shell_.forget_ground();
        look();
    }

    void press(KeyPress key) {
        done_ = "pressed " + std::to_string(key.code);
        shell_.press(key);
        look();
    }

    void fiddle(int events) {
        for (int i = 0; i < events; ++i) {
            wants_another_mode(shell_);
            event();
            look();
        }
    }

  private:
    int any(int count) { return static_cast<int>(random_() % static_cast<unsigned>(count)); }

    void event() {
        const int kind = any(20);
        if (kind < 10) {
            const std::string key(1, static_cast<char>('!' + any('~' - '!')));
            done_ = "struck " + key;
            strike(shell_, key);
            CHECK_FALSE(wants_another_mode(shell_));
        } else if (kind < 14) {
            const KeyPress key{key::up + any(key::back - key::up), any(6) == 0, any(3) == 0};
            done_ = "pressed " + std::to_string(key.code);
            shell_.press(key);
        } else if (kind < 18) {
            const Vec2 at(any(1280), any(800));
            done_ = "clicked at " + std::to_string(at.x()) + ", " + std::to_string(at.y());
            shell_.pointer_pressed(at, Button::left, {}, any(4) == 0);
            shell_.pointer_moved(at + Vec2(any(80) - 40, any(80) - 40), {});
            shell_.pointer_released(at);
        } else if (kind < 19) {
            done_ = "wheel";
            shell_.wheel(any(5) - 2, Vec2(any(1280), any(800)), {});
        } else {
            done_ = "time";
            shell_.advance(0.3);
        }
    }

    /// The screen, and the same drawn as if nothing had been drawn before.
    void look() {
        Frame shown = shell_.frame(type_width);
        if (!shown.ground.empty()) ground_ = std::move(shown.ground);
        shell_.forget_ground();
        const Frame fresh = shell_.frame(type_width);
        INFO(words_for(shell_.name()) << ", " << done_);
        CHECK(difference(shown.picture, fresh.picture) == "");
        if (fresh.ground.empty()) return;
        CHECK(difference(ground_, fresh.ground) == "");
        ground_ = fresh.ground;
    }

    Shell& shell_;
    std::mt19937 random_;
    Picture ground_;
    std::string done_ = "opened";
};

void fiddle_with(std::size_t mode, int events, unsigned sitting = 0) {
    EveryMode every;
    INFO("mode " << mode << ", sitting " << sitting);
    Fiddler(*every.shells[mode], 21 + static_cast<unsigned>(mode) + 100 * sitting).fiddle(events);
}

int number_from(const char* variable, int otherwise) {
    const char* const typed = std::getenv(variable);
    return typed ? std::stoi(typed) : otherwise;
}

}  // namespace

TEST_CASE("keys and clicks at random: no other mode, and the screen follows at once", "[shell]") {
    for (std::size_t mode = 0; mode < mode_count; ++mode) fiddle_with(mode, 150);
}

TEST_CASE("the lines of a green make room for the spot that is chosen", "[green]") {
    GreenStart start;
    start.draft = draft_of(*shipped_green("meadow"));
    const auto shell = Shell::with<GreenMode>(quiet_look(), start);
    shell->frame(type_width);
    Fiddler fiddler(*shell, 1);
    for (std::size_t i = 0; i <= start.draft->spots.size(); ++i) fiddler.press({']'});
    fiddler.press({key::escape});
    fiddler.press({'h'});
}

TEST_CASE("the lines of a putt practised make room for what help tells", "[practise]") {
    EveryMode every;
    Fiddler fiddler(*every.shells[static_cast<std::size_t>(ModeName::practise)], 1);
    fiddler.press({'p'});
    for (int putt = 0; putt < 12; ++putt) {
        fiddler.press({'c'});
        for (int step = 0; step < 4; ++step) fiddler.press({'h'});
        fiddler.press({key::enter});
        fiddler.press({key::enter});
    }
}

/// In sittings of 5,000, longer than anybody's: what a sitting gathers (a hundred readings of a
/// green, hundreds of putts reviewed together) makes each event of the next dearer without end;
/// DEWTRAIL_EVENTS_SITTING=1000 makes them shorter. One mode alone, from another sitting on:
/// DEWTRAIL_EVENTS_MODE=2 DEWTRAIL_EVENTS_FROM=20.
TEST_CASE("the same, 100,000 times in each mode", "[.events]") {
    const int sitting = number_from("DEWTRAIL_EVENTS_SITTING", 5000);
    const int only = number_from("DEWTRAIL_EVENTS_MODE", -1);
    const int events = number_from("DEWTRAIL_EVENTS", 100'000);
    const unsigned first = static_cast<unsigned>(number_from("DEWTRAIL_EVENTS_FROM", 0));
    for (std::size_t mode = 0; mode < mode_count; ++mode) {
        if (only >= 0 && mode != static_cast<std::size_t>(only)) continue;
        for (int done = 0; done < events; done += sitting)
            fiddle_with(mode, std::min(sitting, events - done),
                        first + static_cast<unsigned>(done / sitting));
    }
}
