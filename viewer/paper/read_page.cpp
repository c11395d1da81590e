#include "viewer/paper/read_page.hpp"

#include <cmath>
#include <stdexcept>

#include "greens/contours.hpp"
#include "viewer/paper/page.hpp"
#include "viewer/picture/filled.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/practice/drill/plain_read.hpp"
#include "viewer/putt/account.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double least_words_height = 270, tally_height = 58, tally_gap = 20;
constexpr double plan_labels_across = 150, plan_labels_down = 90;
constexpr double hero_size = 25, row_size = 16, label_size = 13;

class ReadPainter {
  public:
    ReadPainter(const Setup& setup, const Solved& solved, Paper paper, const Units& units)
        : s_(solved),
          slope_(slope_figure(setup, units)),
          words_(putt_words(placed(setup), units)),
          paper_(paper),
          units_(units),
          account_(account_of(solved.putt, *solved.read, units, known_of(setup))) {}

    Picture paint() {
        Page probe(paper_, head(12), units_);
        const Box shown = box_round(to_be_seen(s_));
        const double words = write_words(probe, probe.body().y) - probe.body().y;
        const Rect pane = pane_of(probe.body(), std::max(words, least_words_height));
        const int scale =
            fitting_scale(shown.size(), {pane.w - plan_labels_across, pane.h - plan_labels_down});
        Page page(paper_, head(scale), units_);
        draw_plan(page, pane, shown, units_per_m / scale);
        const double bottom = write_words(page, pane.bottom());
        write_tally(page, bottom);
        return page.take();
    }

  private:
    PageHead head(int scale) const { return {account_.heading, words_, scale}; }

    /// What words and tally leave.
    static Rect pane_of(const Rect& body, double words) {
        return {body.x, body.y + 2, body.w, body.h - words - tally_height - tally_gap};
    }

    void draw_plan(Page& page, const Rect& pane, const Box& shown, double px_per_m) {
        PlanCamera camera;
        camera.centre_m = shown.middle();
        camera.centre_px = pane.centre();
        camera.px_per_m = px_per_m;
        MapView view;
        const Trail trail(*s_.read);
        view.time_s = trail.end_s();
        view.slope = slope_;
        std::vector<Label> wishes;
        const PlanPicture plan = plan_picture(s_, trail, camera, pane, view, page.look(), wishes);
        std::vector<Rect> taken = plan.taken;
        keep_clear_of_ring(taken, camera);
        Picture& out = page.picture();
        out.push_back(Clip{pane});
        append(out, plan_ground(s_, camera, pane, taken, page.look()));
        clear(out, plan.taken, page.look().colours.paper);
        out.push_back(Clip{});
        append(out, plan.picture);
        out.push_back(Clip{});
    }

    /// The clock ring crosses no height.
    void keep_clear_of_ring(std::vector<Rect>& taken, const PlanCamera& camera) const {
        const double radius = s_.putt.distance_m() * camera.px_per_m;
        std::vector<Vec2> ring = circle_points(camera.to_px(s_.putt.hole), radius);
        ring.push_back(ring.front());
        add_obstacles(taken, ring, 5);
    }

    /// Contours stop short of words and marks: on white paper a line through a word strikes it out.
    static void clear(Picture& out, const std::vector<Rect>& taken, const Colour& paper) {
        for (const Rect& box : taken) out.push_back(filled_box(box, paper));
    }

    /// Two columns: aim, pace and costs on the left, the rest on the right.
    double write_words(Page& page, double top) {
        const Rect& body = page.body();
        const double column = body.w / 2 - 14, right = body.x + body.w / 2 + 14;
        page.rule(top);
        double left_y = hero(page, *account_.row(Glyph::aim), {body.x, top + 38}, column);
        double right_y = top + 8;
        for (const AccountRow& row : account_.rows) {
            if (row.glyph == Glyph::aim || (row.words.empty() && row.table.empty())) continue;
            const bool on_left = row.glyph == Glyph::stand_in || row.glyph == Glyph::drop;
            double& y = on_left ? left_y : right_y;
            y = write_row(page, row, {on_left ? body.x : right, y}, column);
        }
        return std::max(left_y, right_y);
    }

    double hero(Page& page, const AccountRow& aim, const Vec2& at, double width) {
        const Palette& c = page.look().colours;
        draw_glyph(page.picture(), Glyph::aim, at + Vec2(9, -6), page.look());
        page.text(at + Vec2(28, -14), aim.name, Face::sans, label_size, c.ink2);
        const double y = page.paragraph(at + Vec2(28, 12), aim.words, Face::book, hero_size,
                                        c.copper, width - 28);
        page.text({at.x() + 28, y - 10}, aim.second, Face::sans, label_size, c.ink2);
        return y;
    }

    double write_row(Page& page, const AccountRow& row, const Vec2& at, double width) {
        const Palette& c = page.look().colours;
        const double x = at.x() + 28;
        double y = at.y() + 18;
        draw_glyph(page.picture(), row.glyph, {at.x() + 9, y + 2}, page.look());
        page.text({x, y}, row.name, Face::sans, label_size, c.ink2);
        y += 20;
        if (!row.words.empty())
            y = page.paragraph({x, y}, row.words, Face::book, row_size, c.ink, width - 28);
        if (!row.second.empty())
            y = page.paragraph({x, y - 2}, row.second, Face::sans, label_size, c.ink2, width - 28);
        for (const auto& [what, cost] : row.table) {
            page.text({x, y}, what, Face::sans, label_size, c.ink);
            page.text({x + 130, y}, cost, Face::book, row_size, c.ink);
            y += 20;
        }
        return y - 6;
    }

    void write_tally(Page& page, double top) {
        const Rect& body = page.body();
        const double y = std::max(top + tally_gap, body.bottom() - tally_height);
        page.rule(y, 0.8);
        page.text({body.x, y + 25}, "Tick each putt", Face::sans, label_size,
                  page.look().colours.ink2);
        const double pitch = (body.w - 118) / 4;
        const double low = low_side(s_.putt);
        const std::string_view results[] = {"holed", miss_side(s_.putt, low),
                                            miss_side(s_.putt, -low), "short"};
        for (int i = 0; i < 4; ++i) {
            const double right = body.x + 118 + (i + 1) * pitch;
            page.boxes(right, y + 25, 5);
            page.text({right - 5 * 19 - 4, y + 25}, std::string(results[i]), Face::sans, label_size,
                      page.look().colours.ink, Align::right);
        }
    }

    /// An offset on the low side of a putt that breaks; else the left.
    static double low_side(const Putt& putt) { return rises_right_at_hole(putt) < 0 ? 1 : -1; }

    const Solved& s_;
    std::string slope_, words_;
    Paper paper_;
    Units units_;
    Account account_;
};

}  // namespace

Picture read_page(const Setup& setup, const Solved& solved, Paper paper, const Units& units) {
    if (!solved.read) throw std::invalid_argument("read_page: the putt has no read");
    return ReadPainter(setup, solved, paper, units).paint();
}

}  // namespace dewtrail
