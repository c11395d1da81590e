#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/modes/green/green_mode.hpp"
#include "viewer/picture/labels.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/text/figures.hpp"

/// Green: the plan with its spots.
namespace dewtrail {
namespace {

constexpr double clear_sd = 0.002, thick_sd = 0.010, thickest = 0.62;
constexpr int mist_cells = 64;
constexpr double spot_u = 5.5;

void add_square(Picture& picture, const Vec2& at, double half, Colour colour) {
    add_rect(picture, {at.x() - half, at.y() - half, 2 * half, 2 * half}, colour);
}

Rect box_about(const Vec2& at, double half) {
    return {at.x() - half, at.y() - half, 2 * half, 2 * half};
}

}  // namespace

double GreenMode::Mist::at(const Vec2& place) const {
    const Vec2 p = (place - least)
                       .cwiseQuotient(step)
                       .cwiseMax(Vec2::Zero())
                       .cwiseMin(Vec2(columns - 1, rows - 1));
    const int i = std::min(static_cast<int>(p.x()), columns - 2),
              j = std::min(static_cast<int>(p.y()), rows - 2);
    const auto value = [&](int x, int y) {
        return slope_sd[static_cast<std::size_t>(y * columns + x)];
    };
    const double x = p.x() - i, y = p.y() - j;
    return std::lerp(std::lerp(value(i, j), value(i + 1, j), x),
                     std::lerp(value(i, j + 1), value(i + 1, j + 1), x), y);
}

/// The ground keeps clear of what lies on it, so that the marks are laid out first.
void GreenMode::prepare(const Look& look, Picture& ground) {
    const Rect pane = look.layout.green;
    std::vector<Rect> taken;
    marks_.clear();
    draw_marks(marks_, look, taken);
    draw_scale(marks_, look, taken);
    const Ground now{fits_, shell_.dusk(), shell_.text(), look.units.metric, camera_, pane, taken};
    if (!shell_.ground_changed(ground_, now)) return;
    const Palette& c = look.colours;
    if (!green_)
        return add_gradient(ground, pane, grass_at(0, 0, c), grass_at(1, 0, c), grass_at(1, 1, c),
                            grass_at(0, 1, c));
    PlanGround plan{*green_->surface, &green_->outline, draft_.hole_at(), 0};
    if (!mist_.slope_sd.empty()) plan.veil.push_back(mist(look));
    ground = plan_ground(plan, camera_, pane, taken, look);
}

void GreenMode::paint(const Canvas& canvas) const {
    Picture& picture = canvas.picture;
    const Rect& pane = canvas.look.layout.green;
    picture.push_back(Clip{pane});
    add_dew(picture, pane, {}, 0, {}, canvas.look);
    append(picture, marks_);
    picture.push_back(Clip{});
    paint_note(canvas);
}

/// Morning mist lies where the slope is not known.
Mesh GreenMode::mist(const Look& look) const {
    const Rect& pane = look.layout.green;
    Mesh mesh;
    const int columns = mist_cells,
              rows = std::max(1, static_cast<int>(mist_cells * pane.h / pane.w));
    const auto vertex = [&](int i, int j) {
        const Vec2 px(pane.x + pane.w * i / columns, pane.y + pane.h * j / rows);
        const Vec2 at = camera_.to_green(px);
        const double sd = mist_.at(at);
        const double in_px = green_->outline.inside_by(at) * camera_.px_per_m;
        const double share = std::clamp((sd - clear_sd) / (thick_sd - clear_sd), 0.0, 1.0) *
                             std::clamp(in_px / 12, 0.0, 1.0);
        return Mesh::Vertex{px, faded(look.colours.paper, thickest * share)};
    };
    std::vector<Mesh::Vertex> corners;
    for (int j = 0; j <= rows; ++j)
        for (int i = 0; i <= columns; ++i) corners.push_back(vertex(i, j));
    for (int j = 0; j < rows; ++j)
        for (int i = 0; i < columns; ++i)
            for (const auto& [x, y] :
                 {std::pair(i, j), {i + 1, j}, {i + 1, j + 1}, {i, j}, {i + 1, j + 1}, {i, j + 1}})
                mesh.vertices.push_back(corners[static_cast<std::size_t>(y * (columns + 1) + x)]);
    return mesh;
}

void GreenMode::draw_marks(Picture& picture, const Look& look, std::vector<Rect>& taken) const {
    const Palette& c = look.colours;
    const Colour surface = surface_colour(c);
    const Vec2 hole = camera_.to_px(draft_.hole_at());
    std::vector<Label> labels;
    const auto name = [&](const char* id, const std::string& words, const Vec2& at, Colour colour,
                          double clear_u, bool must) {
        labels.push_back({id, {{words, Face::sans, look.type(17), colour}}, at, look.u(clear_u)});
        labels.back().must = must;
        labels.back().leader = must;
    };
    if (draft_.ball)
        add_dashes(picture, {camera_.to_px(*draft_.ball), hole}, look.u(1.8), look.u(6.7),
                   look.u(1.5), c.ink2);
    for (std::size_t i = 0; i < draft_.spots.size(); ++i) {
        const Spot& spot = draft_.spots[i];
        const Vec2 at = camera_.to_px(spot.at);
        taken.push_back(box_about(at, look.u(12)));
        if (thing_ == Thing::spot && spot_ == i) continue;
        if (doubtful_[i]) add_ring(picture, at, look.u(14), look.u(1.8), c.ink);
        add_square(picture, at, look.u(spot_u + 2), surface);
        add_square(picture, at, look.u(spot_u), spot.gradient ? c.ink : c.ink2);
        add_square(picture, at, look.u(spot_u - 1.8), c.paper);
    }
    for (const auto& [hole_name, place] : draft_.holes) {
        const Vec2 at = camera_.to_px(place);
        draw_hole(picture, at, look.u(9), look);
        taken.push_back(box_about(at, look.u(14)));
        name("hole", draft_.holes.size() == 1 ? "hole" : hole_name, at, c.ink,
             thing_ == Thing::hole && place == draft_.hole_at() ? 28 : 16, false);
    }
    if (draft_.ball) {
        const Vec2 at = camera_.to_px(*draft_.ball);
        draw_ball(picture, at, look.u(7), look);
        taken.push_back(box_about(at, look.u(12)));
        name("ball", "ball", at, c.ink, thing_ == Thing::ball ? 28 : 14, false);
    }
    if (thing_ == Thing::hole || thing_ == Thing::ball)
        add_ring(picture, thing_ == Thing::hole ? hole : camera_.to_px(*draft_.ball), look.u(24),
                 look.u(1.8), c.copper);
    const auto covered = [&](const Vec2& at) {
        const Spot* spot = chosen_spot();
        return spot && (camera_.to_px(spot->at) - at).norm() < look.u(24);
    };
    if (next_ && !covered(camera_.to_px(next_->at))) {
        const Vec2 at = camera_.to_px(next_->at);
        draw_dashed_ring(picture, at, look.u(13), look, surface);
        taken.push_back(box_about(at, look.u(15)));
        name("next", "read here next", at, c.copper, 19, true);
    }
    if (const Spot* spot = chosen_spot()) {
        draw_chosen(picture, look);
        const Vec2 at = camera_.to_px(spot->at);
        taken.push_back(box_about(at, look.u(26)));
        const auto now = reading_now();
        if (now) {
            const Vec2 drop = drop_px({spot->at, now});
            std::vector<Vec2> fall;
            for (int i = 0; i <= 8; ++i) fall.push_back(at + i / 8.0 * (drop - at));
            add_obstacles(taken, fall, look.u(8));
        }
        draw_bearings(picture, look, taken);
        const std::string reading =
            now ? fmt::format("{:.1f} %", 100 * now->norm()) : "not read yet";
        Label label{"spot",
                    {{fmt::format("spot {}", spot_ + 1), Face::sans_bold, look.type(18), c.copper},
                     {reading, Face::book, look.type(23), c.ink}},
                    at,
                    look.u(30),
                    {Side::right, Side::left, Side::above, Side::below}};
        label.must = true;
        labels.insert(labels.begin(), label);
    }
    std::vector<Rect> lines = taken;  // that no name stands on
    if (draft_.ball) add_obstacles(lines, {camera_.to_px(*draft_.ball), hole}, look.u(2));
    if (green_) {
        std::vector<Vec2> edge;
        for (const Vec2& corner : green_->outline.corners()) edge.push_back(camera_.to_px(corner));
        edge.push_back(edge.front());
        add_obstacles(lines, edge, look.u(2));
    }
    const auto placed = place_labels(labels, lines, look.layout.green, look.width);
    for (const PlacedLabel& p : placed) taken.push_back(p.box);
    draw_labels(picture, placed, look, surface);
}

void GreenMode::draw_chosen(Picture& picture, const Look& look) const {
    const Palette& c = look.colours;
    const Spot& spot = *chosen_spot();
    const Vec2 at = camera_.to_px(spot.at);
    picture.push_back(Disc{at, look.u(24), faded(c.paper, 0.8)});
    add_ring(picture, at, look.u(24), look.u(1.8), c.copper);
    const auto now = reading_now();
    if (now) {
        // The level lies along the fall, its bubble at the high end.
        const Vec2 drop = drop_px({spot.at, now}), down = (drop - at).normalized();
        picture.push_back(
            Line{{at - look.u(34) * down, at + look.u(20) * down}, look.u(13), c.ink2});
        picture.push_back(Line{{at, drop}, look.u(1.8), c.ink});
        picture.push_back(
            Disc{at - look.u(std::min(28.0, 10 + 900 * now->norm())) * down, look.u(4), c.paper});
        draw_drop(picture, drop, -down, look.u(6.5), c.ink);
    }
    add_square(picture, at, look.u(spot_u + 1), c.paper);
    add_square(picture, at, look.u(spot_u), c.copper);
    if (!spot.gradient) add_square(picture, at, look.u(spot_u - 1.8), c.paper);
}

std::optional<Vec2> GreenMode::reading_now() const {
    const Spot* spot = chosen_spot();
    if (shell_.typed_index(What::answer) != green_reading || shell_.typed_text().empty())
        return spot->gradient;
    try {
        return parse_spot_reading(shell_.typed_text());
    } catch (const InputError&) {
        return spot->gradient;  // half a word as yet
    }
}

/// How bearings are counted, while a spot is chosen.
void GreenMode::draw_bearings(Picture& picture, const Look& look, std::vector<Rect>& taken) const {
    const Rect pane = look.layout.green;
    const Colour ink = look.colours.ink2;
    const double r = look.u(20), size = look.type(16);
    const double top = std::max(pane.y, shell_.message_box().bottom());
    const Vec2 at(pane.x + look.u(48) + r, top + look.type(40) + r);
    add_ring(picture, at, r, look.u(1.4), ink);
    const Vec2 up = camera_.direction_px({0, 1}).normalized(), right(-up.y(), up.x());
    picture.push_back(Line{{at, at + r * up}, look.u(1.8), ink});
    const Vec2 zero = at + (r + 0.7 * size) * up, ninety = at + (r + 0.9 * size) * right;
    const Colour surface = surface_colour(look.colours);
    const auto figure = [&](const char* words, const Vec2& by) {
        draw_map_text(picture,
                      {words,
                       Face::sans,
                       size,
                       {std::round(by.x()), std::round(by.y() + 0.35 * size)},
                       ink,
                       Align::centre},
                      look, surface);
    };
    figure("0", zero), figure("90", ninety);
    const Text told{"0 is up the plan",
                    Face::sans,
                    size,
                    {std::round(at.x() + r + 2.8 * size), std::round(at.y() + 0.35 * size)},
                    ink};
    draw_map_text(picture, told, look, surface);
    taken.push_back({pane.x + look.u(40), top + look.type(12),
                     rect_of(told, look.width).right() - pane.x, 2 * r + look.type(34)});
}

/// A round length, about a tenth of the pane.
void GreenMode::draw_scale(Picture& picture, const Look& look, std::vector<Rect>& taken) const {
    const double unit_m = look.units.metric ? 1 : metres_per_foot;
    const double most = look.u(150) / camera_.px_per_m / unit_m;
    double length = 1;
    for (const double l : {2.0, 5.0, 10.0, 20.0, 50.0, 100.0})
        if (l <= most) length = l;
    const Rect pane = look.layout.green;
    const Colour ink = look.colours.ink2;
    const double x = std::round(pane.x + look.u(48)), y = std::round(pane.bottom() - look.u(44)),
                 w = length * unit_m * camera_.px_per_m;
    picture.push_back(Line{{{x, y}, {x + w, y}}, look.u(1.6), ink});
    for (const double at : {x, x + w / 2, x + w})
        picture.push_back(Line{{{at, y - look.u(5)}, {at, y}}, look.u(1.6), ink});
    const Text text{fmt::format("{:g} {}", length, look.units.metric ? "m" : "ft"),
                    Face::sans,
                    look.type(16),
                    {std::round(x + w + look.u(12)), y + look.type(4)},
                    ink};
    taken.push_back(rect_of(text, look.width).grown(look.u(6)));
    draw_map_text(picture, text, look, surface_colour(look.colours));
}

}  // namespace dewtrail
