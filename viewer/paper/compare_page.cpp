#include "viewer/paper/compare_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "greens/contours.hpp"
#include "viewer/comparison/compare_words.hpp"
#include "viewer/modes/compare/compare_style.hpp"
#include "viewer/paper/page.hpp"
#include "viewer/picture/map/read_labels.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/putt/trail.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double row_height = 46, head_height = 34, sentence_size = 18, cell_size = 16;
constexpr double legend_line = 20;
constexpr double labels_across = 300, labels_down = 54;
constexpr double lower = 12;           // the labels stand above the hole
constexpr double most_beyond_m = 1.2;  // of a miss that is followed past the hole

class ComparePainter {
  public:
    ComparePainter(const PrintedComparison& printed, Paper paper, const Units& units)
        : printed_(printed), comparison_(printed.comparison), paper_(paper), units_(units) {}

    Picture paint() {
        for (const ComparedPutt& putt : comparison_.putts) add_lines(putt);
        if (seen_.empty()) throw std::invalid_argument("compare_page: no putt has a stroke");
        for (const PlayedPutts& played : printed_.played)
            for (const Vec2& at : misses_of(played)) seen_.push_back(at);
        Page probe(paper_, head(12), units_);
        const double below = words_height(probe);
        const double legend =
            printed_.played.empty()
                ? 0
                : legend_line * (1.0 + static_cast<double>(printed_.played.size()));
        const Rect pane{probe.body().x, probe.body().y, probe.body().w,
                        probe.body().h - below - legend};
        const Box shown = box_round(seen_);
        const int scale =
            fitting_scale(shown.size(), {pane.w - labels_across, pane.h - labels_down});
        Page page(paper_, head(scale), units_);
        page_ = &page;
        px_per_m_ = units_per_m / scale;
        const Vec2 middle = shown.middle();
        hole_px_ = pane.centre() + Vec2(0, lower) + px_per_m_ * Vec2(-middle.x(), middle.y());
        draw(pane);
        draw_legend(pane.bottom() + legend_line);
        write_sentences(write_table(pane.bottom() + legend));
        return page.take();
    }

  private:
    PageHead head(int scale) const {
        PageHead head{printed_.title, putt_words(comparison_.putts.front().plan, units_), scale};
        head.sideways = printed_.stretch;
        return head;
    }

    /// The player's frame with the hole as its origin, along up the page, stretched across.
    Vec2 stretched(double offset_m, double along_m) const {
        return {printed_.stretch * offset_m, along_m};
    }
    Vec2 from_hole(const Putt& putt, const Vec2& place) const {
        const PlayerPoint at = in_player_frame(putt, place);
        return stretched(at.offset_m, at.along_m - putt.distance_m());
    }
    Vec2 aim_px(const Read& stroke) const { return px(stretched(*stroke.aim_offset_m, 0)); }

    /// Where they ended, those near the hole.
    std::vector<Vec2> misses_of(const PlayedPutts& played) const {
        std::vector<Vec2> ends;
        for (const PlayedStroke& stroke : played.strokes)
            if (!stroke.outcome.holed &&
                Vec2(stroke.end.offset_m, stroke.end.along_m).norm() < most_beyond_m)
                ends.push_back(stretched(stroke.end.offset_m, stroke.end.along_m));
        return ends;
    }

    void add_lines(const ComparedPutt& putt) {
        std::vector<Vec2> trail;
        if (const Read* stroke = putt.shown()) {
            for (const Vec2& p : Trail(*stroke).line(60)) {
                const Vec2 at = from_hole(putt.plan.putt, p);
                if (at.y() > 0 && (p - putt.plan.putt.hole).norm() > most_beyond_m) break;
                trail.push_back(at);
            }
            seen_.insert(seen_.end(), trail.begin(), trail.end());
            seen_.emplace_back(0, 0);
            if (stroke->aim_offset_m && std::abs(*stroke->aim_offset_m) < 3)
                seen_.push_back(stretched(*stroke->aim_offset_m, 0));
        }
        trails_.push_back(std::move(trail));
    }

    Vec2 px(const Vec2& from_hole_m) const {
        return hole_px_ + px_per_m_ * Vec2(from_hole_m.x(), -from_hole_m.y());
    }

    void draw(const Rect& pane) {
        Picture& out = page_->picture();
        out.push_back(Clip{pane});
        draw_straight_line();
        for (std::size_t i = trails_.size(); i-- > 0;) draw_trail_of(i);
        for (std::size_t i = trails_.size(); i-- > 0;) draw_start_line_of(i);
        for (const PlayedPutts& played : printed_.played) draw_misses(played);
        draw_stretched_hole();
        for (std::size_t i = 0; i < trails_.size(); ++i) draw_ends_of(i);
        label_aims(pane);
        out.push_back(Clip{});
    }

    void draw_straight_line() {
        double longest = 0;
        for (const ComparedPutt& putt : comparison_.putts)
            longest = std::max(longest, putt.plan.putt.distance_m());
        add_dashes(page_->picture(), {px({0, -longest}), hole_px_}, 1.5, 6, 1.2, colours().ink2);
    }

    /// As wide as everything else is.
    void draw_stretched_hole() {
        const double r = std::max(4.0, hole_radius_m * px_per_m_);
        std::vector<Vec2> rim = circle_points(Vec2::Zero(), r);
        for (Vec2& p : rim) p = hole_px_ + Vec2(printed_.stretch * p.x(), p.y());
        page_->picture().push_back(Polygon{rim, colours().hole});
    }

    /// Told apart in grey as well: full where a part of the break is seen, else open.
    void miss_mark(const Vec2& at, bool part) {
        const Colour colour = part ? colours().heather : colours().trail;
        page_->picture().push_back(Disc{at, 3.6, colour});
        if (!part) page_->picture().push_back(Disc{at, 2.2, colours().paper});
    }

    void draw_misses(const PlayedPutts& played) {
        for (const Vec2& at : misses_of(played)) miss_mark(px(at), played.share_of_break < 1);
    }

    void draw_legend(double y) {
        const double x = page_->body().x;
        for (const PlayedPutts& played : printed_.played) {
            const bool part = played.share_of_break < 1;
            miss_mark({x + 5, y - 4.5}, part);
            const std::string seen = part ? format_percent(played.share_of_break) : "all";
            const int over = played.over_the_hole();
            page_->text({x + 16, y},
                        fmt::format("{} balls seeing {} of the break: {} holed, {} low, {} high{}",
                                    played.strokes.size(), seen, played.holed(),
                                    played.missed_low(), played.missed_high(),
                                    over ? fmt::format(", {} over the hole", over) : ""),
                        Face::sans, 14, part ? colours().heather : colours().trail);
            y += legend_line;
        }
    }

    std::vector<Vec2> trail_px(std::size_t i) const {
        std::vector<Vec2> line;
        for (const Vec2& p : trails_[i]) line.push_back(px(p));
        return line;
    }

    void draw_trail_of(std::size_t i) {
        if (trails_[i].empty()) return;
        const CompareStyle& style = compare_style(i);
        add_dashes(page_->picture(), trail_px(i), style.dash, style.gap, style.width,
                   compare_colour(i, colours()));
    }

    void draw_start_line_of(std::size_t i) {
        const ComparedPutt& putt = comparison_.putts[i];
        const Read* stroke = putt.shown();
        if (!stroke || !stroke->aim_offset_m) return;
        const Vec2 ball = px({0, -putt.plan.putt.distance_m()});
        page_->picture().push_back(
            Line{{ball, aim_px(*stroke)}, 1.1, faded(compare_colour(i, colours()), 0.75)});
    }

    void draw_ends_of(std::size_t i) {
        const ComparedPutt& putt = comparison_.putts[i];
        const Read* stroke = putt.shown();
        if (!stroke) return;
        Picture& out = page_->picture();
        draw_ball(out, px({0, -putt.plan.putt.distance_m()}), 6, page_->look());
        if (stroke->aim_offset_m)
            draw_diamond(out, aim_px(*stroke), diamond_half(), page_->look(),
                         compare_colour(i, colours()), colours().paper);
        const bool drops = outcome_of(putt.plan.putt, *stroke).holed;
        if (!drops && !trails_[i].empty()) {
            out.push_back(Disc{px(trails_[i].back()), 7, compare_colour(i, colours())});
            out.push_back(Disc{px(trails_[i].back()), 4.2, colours().paper});
        }
    }

    /// Smaller where two aims would overlap.
    double diamond_half() const {
        constexpr double usual = 9, small = 6, overlap = 20;
        std::vector<double> aims;
        for (const ComparedPutt& putt : comparison_.putts)
            if (putt.shown() && putt.shown()->aim_offset_m)
                aims.push_back(aim_px(*putt.shown()).x());
        std::sort(aims.begin(), aims.end());
        for (std::size_t i = 1; i < aims.size(); ++i)
            if (aims[i] - aims[i - 1] < overlap) return small;
        return usual;
    }

    void label_aims(const Rect& pane) {
        std::vector<Label> labels;
        const double half = 10 * printed_.stretch;
        std::vector<Rect> taken{{hole_px_.x() - half, hole_px_.y() - 10, 2 * half, 20}};
        for (const PlayedPutts& played : printed_.played)
            for (const Vec2& at : misses_of(played))
                taken.push_back(Rect{px(at).x(), px(at).y(), 0, 0}.grown(5));
        for (std::size_t i = 0; i < trails_.size(); ++i) {
            add_obstacles(taken, trail_px(i), 6);
            const Read* stroke = comparison_.putts[i].shown();
            if (!stroke || !stroke->aim_offset_m) continue;
            const Vec2 at = aim_px(*stroke);
            taken.push_back({at.x() - 11, at.y() - 11, 22, 22});
            labels.push_back({.id = std::to_string(i),
                              .lines = {{aim_short(*stroke->aim_offset_m, units_), Face::book, 18,
                                         compare_colour(i, colours())}},
                              .mark = at,
                              .clear = 13,
                              .sides = {Side::above, Side::right, Side::left, Side::below},
                              .must = true,
                              .leader = true});
        }
        draw_labels(page_->picture(), place_labels(labels, taken, pane, page_->look().width),
                    page_->look(), colours().paper);
    }

    double words_height(const Page& page) const {
        const double rows = head_height + row_height * static_cast<double>(trails_.size());
        double lines = 0;
        for (const std::string& sentence : printed_.sentences)
            lines += std::ceil(page.width_of(sentence, Face::book, sentence_size) /
                               (0.95 * page.body().w));
        return rows + 1.35 * sentence_size * lines + 34;
    }

    double write_table(double top) {
        const Rect& body = page_->body();
        const double x1 = body.x + 0.40 * body.w, x2 = body.x + 0.64 * body.w,
                     x3 = body.x + 0.82 * body.w, x4 = body.right();
        page_->rule(top);
        double y = top + 20;
        page_->text({x1, y}, "aim", Face::sans, 13, colours().ink2);
        page_->text({x2, y}, "play it as", Face::sans, 13, colours().ink2);
        page_->text({x3, y}, "on the way", Face::sans, 13, colours().ink2);
        page_->text({x4, y}, "result", Face::sans, 13, colours().ink2, Align::right);
        y = top + head_height;
        for (std::size_t i = 0; i < trails_.size(); ++i, y += row_height) {
            page_->hairline(y, body.x, body.right());
            write_row(i, y, {x1, x2, x3, x4});
        }
        page_->hairline(y, body.x, body.right());
        return y;
    }

    void write_row(std::size_t i, double top, const std::array<double, 4>& x) {
        const ComparedPutt& putt = comparison_.putts[i];
        const double left = page_->body().x, y = top + 29;
        const CompareStyle& style = compare_style(i);
        add_dashes(page_->picture(), {{left + 2, y - 6}, {left + 46, y - 6}}, style.dash, style.gap,
                   style.width, compare_colour(i, colours()));
        write_name(as_sentence(putt.name), {left + 60, y}, x[0] - left - 72,
                   compare_colour(i, colours()));
        const Read* stroke = putt.shown();
        if (!stroke) return page_->text({x[0], y}, "no line", Face::book, cell_size, colours().ink);
        page_->text({x[0], y}, aim_cell(*stroke), Face::book, cell_size, colours().ink);
        page_->text({x[1], y}, format_level_putt(stroke->level_putt_m, units_), Face::book,
                    cell_size, colours().ink);
        page_->text({x[2], y}, format_time(putt.time_on_the_way_s()), Face::book, cell_size,
                    colours().ink);
        page_->text({x[3], y}, outcome_words(outcome_of(putt.plan.putt, *stroke), units_),
                    Face::book, cell_size, colours().ink, Align::right);
    }

    /// A long one in smaller letters.
    void write_name(const std::string& name, const Vec2& at, double most, const Colour& colour) {
        const double width = page_->width_of(name, Face::book_bold, cell_size);
        page_->text(at, name, Face::book_bold, cell_size * std::min(1.0, most / width), colour);
    }

    /// '2½ cups right': short, with its side.
    std::string aim_cell(const Read& stroke) const {
        if (!stroke.aim_offset_m) return absent;
        const std::string words = aim_short(*stroke.aim_offset_m, units_);
        const bool counted = !(words[0] >= 'a' && words[0] <= 'z');  // '2½ cups', not 'inside'
        if (!counted) return aim_words(*stroke.aim_offset_m, units_);
        return words + (*stroke.aim_offset_m > 0 ? " right" : " left");
    }

    void write_sentences(double top) {
        double y = top + 32;
        for (const std::string& sentence : printed_.sentences)
            y = page_->paragraph({page_->body().x, y}, sentence, Face::book, sentence_size,
                                 colours().ink, page_->body().w);
    }

    const Palette& colours() const { return page_->look().colours; }

    const PrintedComparison& printed_;
    const Comparison& comparison_;
    Paper paper_;
    Units units_;
    Page* page_ = nullptr;
    std::vector<std::vector<Vec2>> trails_;  ///< from the hole, metres, stretched
    std::vector<Vec2> seen_;
    double px_per_m_ = 1;
    Vec2 hole_px_ = Vec2::Zero();
};

}  // namespace

Picture compare_page(const PrintedComparison& printed, Paper paper, const Units& units) {
    return ComparePainter(printed, paper, units).paint();
}

}  // namespace dewtrail
