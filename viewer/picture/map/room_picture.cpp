#include "viewer/picture/map/room_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/picture/filled.hpp"
#include "viewer/picture/labels.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/room_chart.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double nearest_u = 20;
constexpr double pending_share = 0.5;

class RoomPainter {
  public:
    RoomPainter(const RoomScene& scene, Targets& targets, const Attention& attention,
                const Look& look)
        : scene_(scene),
          read_(*scene.solved.shown()),
          targets_(targets),
          attention_(attention),
          look_(look),
          c_(look.colours),
          surface_(surface_colour(look.colours)),
          pane_(room_pane(look.layout)) {
        const double left = look.u(34) + look.type(78), top = look.type(64);
        const Rect plot{pane_.x + left, pane_.y + top, pane_.w - left - look.u(40),
                        pane_.h - top - look.type(92)};
        chart_ = room_chart(scene.solved, scene.outlook, plot, scene.detail, look);
        for (const StrokeOff& off : scene.outlook.outline) region_.push_back(chart_.px(off));
    }

    RoomPicture paint() {
        add(Clip{pane_});
        add_dew(out_.picture, pane_, {}, 0, {}, look_);
        axes();
        add(Clip{chart_.plot});
        const std::size_t from = out_.picture.size();
        fill_region();
        spread();
        if (scene_.pending) fade_shapes(out_.picture, from, pending_share);
        add(Clip{pane_});
        if (!scene_.best_pending) find_marks();
        marks();
        labels();
        spread_words();
        words_of_the_ground();
        add(Clip{});
        return std::move(out_);
    }

  private:
    template <class S>
    void add(S shape) {
        out_.picture.push_back(std::move(shape));
    }

    void write(const std::string& words, Face face, double size_u, const Vec2& at, Colour colour,
               Align align) {
        Text text{words,  face, look_.type(size_u), {std::round(at.x()), std::round(at.y())},
                  colour, align};
        taken_.push_back(rect_of(text, look_.width));
        draw_map_text(out_.picture, std::move(text), look_, surface_);
    }

    void axes() {
        const Rect& plot = chart_.plot;
        const double hair = std::max(1.0, std::round(look_.u(1)));
        const auto line = [&](const Vec2& a, const Vec2& b, bool zero) {
            add(Line{{a, b}, zero ? look_.u(1.8) : hair, faded(c_.contour, zero ? 1 : 0.55)});
        };
        for (const RoomTick& tick : chart_.angle_ticks) {
            const double x = chart_.px({tick.at, 0}).x();
            line({x, plot.y}, {x, plot.bottom()}, std::abs(tick.at) < 1e-12);
            write(tick.words, Face::sans, 16, {held(tick.words, x), plot.bottom() + look_.type(28)},
                  c_.ink2, Align::centre);
        }
        for (const RoomTick& tick : chart_.pace_ticks) {
            const double y = chart_.px({0, tick.at}).y();
            line({plot.x, y}, {plot.right(), y}, std::abs(tick.at) < 1e-12);
            write(tick.words, Face::sans, 16, {plot.x - look_.u(12), y + look_.type(5.5)}, c_.ink2,
                  Align::right);
        }
        write(scene_.detail ? "level roll, against this read" : "level putt, against this read",
              Face::sans, 18, {pane_.x + look_.u(40), pane_.y + look_.type(41)}, c_.ink,
              Align::left);
        write(
            scene_.detail ? "start line, against this read" : "aim at the hole, against this read",
            Face::sans, 18, {plot.centre().x(), plot.bottom() + look_.type(66)}, c_.ink,
            Align::centre);
    }

    /// Slid inside the pane.
    double held(const std::string& words, double x) const {
        const double half = look_.width(Face::sans, look_.type(16), words) / 2 + look_.u(8);
        return std::clamp(x, pane_.x + half, pane_.right() - half);
    }

    void fill_region() {
        if (region_.size() < 3) return;
        const bool dusk = c_.trail_rim.a > 0;
        add(Line{region_, look_.u(dusk ? 5 : 8), dusk ? c_.trail_rim : faded(c_.trail_soft, 0.45),
                 true});
        Mesh mesh;
        const Colour colour = dusk ? c_.trail : c_.wet_green;
        for (const auto& triangle : filled(region_))
            for (const std::size_t i : triangle) mesh.vertices.push_back({region_[i], colour});
        add(std::move(mesh));
        add(Line{region_, look_.u(1.5), colour, true});
        add_obstacles(taken_, region_, look_.u(5));
        take_inside();
    }

    /// No words inside the region either.
    void take_inside() {
        const double step = look_.u(20);
        const Rect& p = chart_.plot;
        for (double y = p.y; y < p.bottom(); y += step)
            for (double x = p.x; x < p.right(); x += step)
                if (holds(region_, {x, y}))
                    taken_.push_back({x - step / 2, y - step / 2, step, step});
    }

    std::vector<Vec2> places(const std::vector<StrokeOff>& strokes) const {
        std::vector<Vec2> places;
        for (const StrokeOff& off : strokes) places.push_back(chart_.px(off));
        return places;
    }

    void spread() {
        if (!scene_.outlook.spread) return;
        for (const double deviations : {1.0, 2.0}) {
            const auto ellipse = places(spread_ellipse(*scene_.outlook.spread, deviations));
            add(Line{ellipse, look_.u(6), faded(surface_, 0.55)});
            add_dashes(out_.picture, ellipse, look_.u(11), look_.u(7), look_.u(2.6), c_.heather);
            add_obstacles(taken_, ellipse, look_.u(2));
        }
        for (const Vec2& at : places(some_strokes(*scene_.outlook.spread))) {
            if (holds(region_, at))
                add(Disc{at, look_.u(3.4), c_.half_second});
            else
                add_ring(out_.picture, at, look_.u(3), look_.u(1.4), faded(c_.heather, 0.75));
        }
    }

    void find_marks() {
        const auto& best = scene_.outlook.best;
        if (!best) return;
        const auto consider = [&](const PlayedChoice& choice, std::optional<BestKind> kind) {
            RoomMark mark{{choice.stroke.angle_rad - read_.stroke.angle_rad,
                           choice.level_roll_m / read_.level_roll_m - 1},
                          kind,
                          choice,
                          Vec2::Zero()};
            mark.at = chart_.px(mark.off);
            const bool here = (mark.at - chart_.px({})).norm() < look_.u(nearest_u);
            if (!here)
                out_.marks.push_back(mark);
            else if (kind)
                out_.the_read.push_back(*kind);
        };
        consider(best->fewest_putts, BestKind::fewest_putts);
        consider(best->most_holed, BestKind::most_holed);
        if (scene_.taken && best->plain) consider(*best->plain, std::nullopt);
    }

    bool seen(const RoomMark& mark) const { return chart_.plot.contains(mark.at); }

    void marks() {
        for (const RoomMark& mark : out_.marks) {
            if (!seen(mark)) continue;
            if (!mark.best) {
                add(Disc{mark.at, look_.u(8), surface_});
                add_ring(out_.picture, mark.at, look_.u(6), look_.u(2.2), c_.ink);
                continue;
            }
            draw_diamond(out_.picture, mark.at, 10, look_, c_.copper, c_.paper);
            const int index = static_cast<int>(*mark.best);
            const double r = look_.u(22);
            const bool hot = attention_.on(attention_.hovered, What::best, index);
            const bool focused = attention_.on(attention_.focused, What::best, index);
            if (hot || focused)
                add_ring(out_.picture, mark.at, look_.u(24), look_.u(1.4),
                         faded(c_.copper, focused ? 1 : 0.7));
            targets_.push_back(
                {What::best, index, {mark.at.x() - r, mark.at.y() - r, 2 * r, 2 * r}});
        }
        const Vec2 here = chart_.px({});
        add(Disc{here, look_.u(11.5), c_.paper});
        add_ring(out_.picture, here, look_.u(9), look_.u(2.6), c_.ink);
        add(Disc{here, look_.u(2.9), c_.ink});
        const auto box = [&](const Vec2& at) {
            const double r = look_.u(14);
            taken_.push_back({at.x() - r, at.y() - r, 2 * r, 2 * r});
        };
        box(here);
        for (const RoomMark& mark : out_.marks) box(mark.at);
    }

    Label label(std::string id, const Vec2& at, Colour colour, const std::string& name,
                const std::string& second) const {
        Label l{std::move(id), {}, at, look_.u(34), {}, true, true};
        l.sides = {Side::right, Side::left, Side::above, Side::below};
        l.lines.push_back({name, Face::sans_bold, look_.type(18), colour});
        if (!second.empty()) l.lines.push_back({second, Face::sans, look_.type(17), colour});
        return l;
    }

    void labels() {
        std::vector<Label> wishes;
        std::string also;
        for (const BestKind kind : out_.the_read)
            also += (also.empty() ? "" : ", ") + std::string(words_for(kind));
        wishes.push_back(label("this read", chart_.px({}), c_.ink, "this read", also));
        for (const RoomMark& mark : out_.marks) {
            if (!seen(mark)) continue;
            const double level_putt =
                mark.choice.level_roll_m - (read_.level_roll_m - read_.level_putt_m);
            const std::string length = format_level_putt(level_putt, look_.units);
            const bool paced = length.ends_with("paces");
            const std::string pace = (paced ? "a level putt of " : "a level ") + length;
            wishes.push_back(label(mark.best ? words_for(*mark.best) : "plain", mark.at,
                                   mark.best ? c_.copper : c_.ink,
                                   mark.best ? words_for(*mark.best) : "the plain read", pace));
        }
        const Rect within = chart_.plot.grown(look_.u(4));
        const auto placed = place_labels(wishes, taken_, within, look_.width);
        for (const PlacedLabel& l : placed) taken_.push_back(l.box);
        draw_labels(out_.picture, placed, look_, surface_);
    }

    /// The words of the spread, in a corner that is free.
    void spread_words() {
        if (!scene_.outlook.spread || scene_.pending) return;
        const std::string name = "your spread", share = "39 and 86 putts in 100";
        const double w = look_.width(Face::sans, look_.type(17), share);
        std::vector<Vec2> corners;
        for (const bool low : {true, false})
            for (double inward = 0; inward < 0.3; inward += 0.02)
                for (const double x : {0.99, 0.93, 0.87, 0.8})
                    corners.emplace_back(x, low ? 0.985 - inward : 0.1 + inward);
        const auto at = free_place(corners, true, w, look_.type(44));
        if (!at) return;
        write(name, Face::sans_bold, 18, *at - Vec2(0, look_.type(22)), c_.heather, Align::left);
        write(share, Face::sans, 17, *at, c_.heather, Align::left);
    }

    /// The first of these places (shares of the plot) whose box is free: its left end on the last
    /// baseline.
    std::optional<Vec2> free_place(const std::vector<Vec2>& shares, bool at_right, double w,
                                   double h) const {
        const Rect& p = chart_.plot;
        for (const Vec2& share : shares) {
            const double x = p.x + share.x() * p.w - (at_right ? w : 0);
            const double y = p.y + share.y() * p.h;
            const Rect box = Rect{x, y - h, w, h + look_.type(7)}.grown(look_.u(3));
            const bool free = p.grown(look_.u(3)).holds(box) &&
                              std::none_of(taken_.begin(), taken_.end(),
                                           [&](const Rect& r) { return r.meets(box); });
            if (free) return Vec2(x, y);
        }
        return std::nullopt;
    }

    void ground_word(const std::string& words, const std::vector<Vec2>& shares, bool at_right,
                     Colour colour) {
        const double w = look_.width(Face::book_italic, look_.type(22), words);
        if (const auto at = free_place(shares, at_right, w, look_.type(22)))
            write(words, Face::book_italic, 22, *at, colour, Align::left);
    }

    void words_of_the_ground() {
        if (region_.size() < 3) {
            std::vector<Vec2> anywhere;
            for (double y = 0.045; y < 0.95; y += 0.05)
                for (const double x : {0.99, 0.3}) anywhere.emplace_back(x, y);
            if (scene_.outlook.complete && !scene_.pending)
                ground_word("too fast to drop: no room", anywhere, true, c_.ink);
            return;
        }
        const double turn = scene_.solved.putt.distance_m() * std::tan(read_.stroke.angle_rad);
        const bool straight = std::abs(turn) < 0.5 * metres_per_inch;
        const bool high_is_right = read_.stroke.angle_rad > 0;
        const char* left = straight ? "misses left" : high_is_right ? "misses low" : "misses high";
        const char* right = straight        ? "misses right"
                            : high_is_right ? "misses high"
                                            : "misses low";
        std::vector<Vec2> at_left, at_right, below;
        for (double y = 0.2; y < 0.9; y += 0.03) {
            at_left.emplace_back(0.012, std::fmod(y + 0.35, 0.7) + 0.15);
            at_right.emplace_back(0.988, y);
        }
        for (double x = 0.012; x < 0.8; x += 0.05) below.emplace_back(x, 0.97);
        ground_word(left, at_left, false, c_.ink2);
        ground_word(right, at_right, true, c_.ink2);
        ground_word("stops short", below, false, c_.ink2);
        const Vec2 tip =
            *std::min_element(region_.begin(), region_.end(),
                              [](const Vec2& a, const Vec2& b) { return a.y() < b.y(); });
        std::vector<Vec2> near_tip;
        for (double down = 0.02; down < 0.4; down += 0.03)
            for (const double x : {0.05, -0.12})
                near_tip.emplace_back((tip.x() - chart_.plot.x) / chart_.plot.w + x,
                                      (tip.y() - chart_.plot.y) / chart_.plot.h + down);
        ground_word("holed", near_tip, false, c_.wet_green);
    }

    const RoomScene& scene_;
    const Read& read_;
    Targets& targets_;
    const Attention& attention_;
    const Look& look_;
    const Palette& c_;
    Colour surface_;
    Rect pane_;
    RoomChart chart_;
    std::vector<Vec2> region_;
    std::vector<Rect> taken_;
    RoomPicture out_;
};

}  // namespace

Rect room_pane(const Layout& l) {
    return {l.green.x, l.green.y, l.green.w, l.setup_strip.bottom() - l.green.y};
}

Picture room_ground(const Rect& pane, const Look& look) {
    Picture picture;
    const Palette& c = look.colours;
    add_gradient(picture, pane, grass_at(0, 0, c), grass_at(1, 0, c), grass_at(1, 1, c),
                 grass_at(0, 1, c));
    return picture;
}

RoomPicture room_picture(const RoomScene& scene, Targets& targets, const Attention& attention,
                         const Look& look) {
    return RoomPainter(scene, targets, attention, look).paint();
}

const char* words_for(BestKind kind) {
    return kind == BestKind::fewest_putts ? "fewest putts" : "most holed";
}

}  // namespace dewtrail
