#include "viewer/paper/compare_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <utility>

#include "greens/contours.hpp"
#include "viewer/modes/compare/compare_style.hpp"
#include "viewer/paper/compare_table.hpp"
#include "viewer/paper/page.hpp"
#include "viewer/picture/map/read_labels.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/putt/trail.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double sentence_size = 18, small_size = 13, bar_height = 50, legend_line = 20;
constexpr const char* whole_words = "the whole break";
constexpr double labels_across = 300, labels_down = 54, start_line_width = 1.1;
constexpr double label_gap = 12;       // so that two labels are not read as one
constexpr double lower = 12;           // the labels stand above the hole
constexpr double most_beyond_m = 1.2;  // of a miss that is followed past the hole
constexpr double most_aside_m = 3;     // of an aim spot for which the drawing is made smaller
constexpr double edge = 14;            // from there start lines that leave the drawing end

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
        pane_ = pane;
        const Vec2 middle = shown.middle();
        hole_px_ = pane.centre() + Vec2(0, lower) + px_per_m_ * Vec2(-middle.x(), middle.y());
        draw(pane);
        draw_legend(pane.bottom() + legend_line);
        const CompareTable table(comparison_, units_, page);
        write_sentences(write_share_bar(table.write(page, pane.bottom() + legend)));
        return page.take();
    }

  private:
    PageHead head(int scale) const {
        PageHead head{printed_.title, as_sentence(shared_words(comparison_.putts, units_)), scale};
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
            if (stroke->aim_offset_m && std::abs(*stroke->aim_offset_m) < most_aside_m)
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
        draw_apex_mark();
        label_marks(pane);
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
        const CompareStyle& style = compare_style(i);
        const Vec2 from = ball_px(i), to = start_line_end(i);
        add_dashes(page_->picture(), {from, to}, style.dash, style.gap, start_line_width,
                   faded(compare_colour(i, colours()), 0.75));
        if (is_beyond(i))
            draw_arrow_head(to, (to - from).normalized(), compare_colour(i, colours()));
    }

    Vec2 ball_px(std::size_t i) const {
        return px({0, -comparison_.putts[i].plan.putt.distance_m()});
    }

    /// Whether a putt's aim spot lies outside the drawing.
    bool is_beyond(std::size_t i) const {
        return !pane_.contains(aim_px(*comparison_.putts[i].shown()));
    }

    /// At the aim spot, or where the line leaves the drawing.
    Vec2 start_line_end(std::size_t i) const {
        const Vec2 from = ball_px(i), aim = aim_px(*comparison_.putts[i].shown());
        if (!is_beyond(i)) return aim;
        const double side = aim.x() > from.x() ? pane_.right() - edge : pane_.x + edge;
        return from + (side - from.x()) / (aim.x() - from.x()) * (aim - from);
    }

    void draw_arrow_head(const Vec2& tip, const Vec2& way, const Colour& colour) {
        const Vec2 across(-way.y(), way.x());
        page_->picture().push_back(Polygon{
            {tip + 6 * way, tip - 4 * way + 4.5 * across, tip - 4 * way - 4.5 * across}, colour});
    }

    void draw_ends_of(std::size_t i) {
        const ComparedPutt& putt = comparison_.putts[i];
        const Read* stroke = putt.shown();
        if (!stroke) return;
        Picture& out = page_->picture();
        draw_ball(out, ball_px(i), 6, page_->look());
        if (stroke->aim_offset_m && !is_beyond(i))
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

    /// Aims, and the apex where one is aimed at, clear of everything drawn.
    void label_marks(const Rect& pane) {
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
            const Vec2 at = start_line_end(i);
            add_obstacles(taken, {ball_px(i), at}, 2);
            taken.push_back({at.x() - 11, at.y() - 11, 22, 22});
            labels.push_back(
                mark_label(aim_label(i), Face::book, 18, at, compare_colour(i, colours())));
        }
        if (const auto apex = apex_px()) {
            taken.push_back(Rect{apex->x(), apex->y(), 0, 0}.grown(10));
            labels.push_back(mark_label("apex", Face::sans_bold, 14, *apex, colours().trail));
        }
        const TextWidth with_gap = [&](Face face, double size, std::string_view words) {
            return page_->width_of(std::string(words), face, size) + label_gap;
        };
        draw_labels(page_->picture(), place_labels(labels, taken, pane, with_gap), page_->look(),
                    colours().paper);
    }

    static Label mark_label(const std::string& words, Face face, double size, const Vec2& mark,
                            const Colour& colour) {
        return {.id = words,
                .lines = {{words, face, size, colour}},
                .mark = mark,
                .clear = 13,
                .sides = {Side::above, Side::right, Side::left, Side::below},
                .must = true,
                .leader = true};
    }

    std::string aim_label(std::size_t i) const {
        const std::string words = aim_short(*comparison_.putts[i].shown()->aim_offset_m, units_) +
                                  row_number(comparison_, i);
        return is_beyond(i) ? words + ", beyond the edge" : words;
    }

    /// Of the putt that is aimed at it.
    std::optional<Vec2> apex_px() const {
        for (const ComparedPutt& putt : comparison_.putts)
            if (putt.at_apex && putt.read && putt.read->apex)
                return px(stretched(putt.read->apex->offset_m,
                                    putt.read->apex->along_m - putt.plan.putt.distance_m()));
        return std::nullopt;
    }

    void draw_apex_mark() {
        if (const auto apex = apex_px())
            draw_apex(page_->picture(), *apex, {apex->x() > hole_px_.x() ? 1.0 : -1.0, 0}, 10,
                      page_->look(), colours().paper);
    }

    double words_height(const Page& page) const {
        double lines = 0;
        for (const std::string& sentence : printed_.sentences)
            lines += std::ceil(page.width_of(sentence, Face::book, sentence_size) /
                               (0.95 * page.body().w));
        return CompareTable(comparison_, units_, page).height() +
               (played_share() ? bar_height : 0) + 1.35 * sentence_size * lines + 34;
    }

    /// Of the first putt that is struck for less than its break.
    std::optional<std::pair<std::size_t, double>> played_share() const {
        for (std::size_t i = 0; i < trails_.size(); ++i)
            if (const auto part = comparison_.putts[i].part_of_break()) return std::pair(i, *part);
        return std::nullopt;
    }

    /// How much of its break such a putt plays. Returns where the bar ends.
    double write_share_bar(double top) {
        const auto part = played_share();
        if (!part) return top;
        const Rect& body = page_->body();
        const Colour own = compare_colour(part->first, colours());
        const double left = body.x, right = body.right(), y = top + 24, words_y = y + 22;
        const double x = std::round(left + part->second * body.w);
        Picture& out = page_->picture();
        out.push_back(Line{{{left, y}, {right, y}}, 1.2, colours().ink2});
        out.push_back(Line{{{left, y}, {x, y}}, 5, own});
        for (const double end : {left, right})
            out.push_back(Line{{{end, y - 7}, {end, y + 7}}, 1.4, colours().ink2});
        out.push_back(Line{{{x, y - 8}, {x, y + 8}}, 4, own});
        const std::string played = format_percent(part->second) + ", played";
        const double half = page_->width_of(played, Face::sans_bold, small_size) / 2;
        const auto clear_of = [&](const char* words) {
            return page_->width_of(words, Face::sans, small_size) + half + 12;
        };
        page_->text({left, words_y}, "none", Face::sans, small_size, colours().ink2);
        page_->text({right, words_y}, whole_words, Face::sans, small_size, colours().ink2,
                    Align::right);
        page_->text(
            {std::clamp(x, left + clear_of("none"), right - clear_of(whole_words)), words_y},
            played, Face::sans_bold, small_size, own, Align::centre);
        return top + bar_height;
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
    Rect pane_;                              ///< of the drawing
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
