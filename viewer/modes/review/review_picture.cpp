#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/modes/review/review_mode.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/note_pen.hpp"
#include "viewer/picture/widgets/setup_strip.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

const NoteState plain_state{};

/// What the note of Review tells.
struct ReviewNote {
    std::string aim, pace, end;  ///< meant, and where it stopped; empty: not said yet
    bool holed = false;
    std::size_t kept = 0;
    std::vector<std::string> sentences;
    std::vector<std::pair<std::string, const Part*>> causes;  ///< in words
    double doubts[cause_count] = {};
    std::optional<int> typing;
};

class ReviewPen : private NotePen {
  public:
    ReviewPen(Picture& picture, Targets& targets, const ReviewNote& note,
              const Attention& attention, const Look& look)
        : NotePen(picture, targets, plain_state, attention, look, 0), note_(note) {}

    void paint() {
        open_panel();
        heading();
        rule(true);
        said(review_end, "It stopped",
             note_.holed         ? "in the hole"
             : note_.end.empty() ? "put the ball down there"
                                 : note_.end,
             note_.end.empty() && !note_.holed ? c_.ink2 : c_.heather);
        said(review_aim, "You meant to aim", note_.aim, c_.copper);
        said(review_pace, "at the pace of", note_.pace, c_.copper);
        rule(false);
        for (const std::string& sentence : note_.sentences) paragraph(sentence);
        if (!note_.causes.empty()) {
            rule(false);
            y_ += look_.type(20);
            const std::string scatter = "against your usual scatter", likely = "likely most";
            if (look_.width(Face::sans, look_.type(16), scatter + likely) + look_.u(12) < width_)
                write(scatter, Face::sans, 16, x_, y_, c_.ink2);
            write(likely, Face::sans, 16, right(), y_, c_.ink2, Align::right);
            for (std::size_t i = 0; i < note_.causes.size(); ++i) bar(i);
        }
        button();
        picture_.push_back(Clip{});
    }

  private:
    void heading() {
        y_ += look_.type(44);
        write(note_.kept == 0 ? "Where did it stop?"
                              : fmt::format("{} logged, and this one", note_.kept),
              Face::book, note_.kept == 0 ? 30 : 26, x_, y_, c_.ink);
        y_ += look_.type(16);
    }

    void said(int index, const std::string& label, const std::string& words, Colour ink) {
        const double top = y_;
        y_ += look_.type(22);
        write(label, Face::sans, 16, x_, y_, c_.ink2);
        if (index == review_end) holed_word();
        for (const auto& line :
             wrapped_evenly(words, Face::book, look_.type(22), width_, look_.width)) {
            y_ += look_.type(26);
            if (note_.typing != index) write(line, Face::book, 22, x_, y_, ink);
        }
        if (attention_.on(attention_.focused, What::answer, index))
            add_rect(picture_, {x_, y_ + look_.u(6), width_, look_.u(3)}, c_.copper);
        y_ += look_.type(9);
        Rect hit{x_ - look_.u(34), top, width_ + look_.u(34), y_ - top};
        if (index == review_end) hit.w -= look_.type(90);
        targets_.push_back({What::answer, index, hit});
    }

    void holed_word() {
        const Face face = note_.holed ? Face::sans_bold : Face::sans;
        const double w = look_.width(Face::sans_bold, look_.type(16), "it went in");
        const bool hot = attention_.on(attention_.hovered, What::sure, 0);
        write("it went in", face, 16, right(), y_, hot || note_.holed ? c_.ink : c_.ink2,
              Align::right);
        const Rect box{right() - w, y_ - look_.type(22), w, look_.type(34)};
        if (note_.holed || attention_.on(attention_.focused, What::sure, 0))
            add_rounded_rect(picture_, {box.x, y_ + look_.u(5), w, look_.u(4)}, look_.u(2),
                             note_.holed ? c_.wet_green : c_.copper);
        targets_.push_back({What::sure, 0, box.grown(look_.u(3))});
    }

    void paragraph(const std::string& words) {
        for (const auto& line : wrapped(words, Face::book, look_.type(20), width_, look_.width)) {
            if (y_ + look_.type(24) > foot()) return;
            write(line, Face::book, 20, x_, y_ += look_.type(24), c_.ink);
        }
        y_ += look_.type(6);
    }

    double foot() const { return panel_.bottom() - look_.type(90); }

    /// How far off, against the player's usual scatter, and how likely it moved the ball most.
    void bar(std::size_t i) {
        const auto& [words, part] = note_.causes[i];
        if (y_ + look_.type(46) > foot()) return;
        y_ += look_.type(21);
        write(words, Face::sans, fitting(words, width_ - look_.type(52)), x_, y_, c_.ink2);
        write(format_percent(part->chance), Face::book, 21, right(), y_, c_.ink, Align::right);
        const double y = std::round(y_ + look_.u(15)), middle = x_ + width_ / 2;
        constexpr double reach_sds = 3;
        const double per_sd = width_ / 2 / reach_sds;
        add_rect(picture_, {middle - per_sd, y - look_.u(6), 2 * per_sd, look_.u(12)}, c_.rule);
        picture_.push_back(Line{{{x_, y}, {right(), y}}, look_.u(1), c_.ink2});
        const double off = std::clamp(part->size / note_.doubts[i], -reach_sds, reach_sds) * per_sd;
        picture_.push_back(Line{{{middle, y}, {middle + off, y}}, look_.u(4.5), c_.heather});
        add_rounded_rect(picture_,
                         {middle + off - look_.u(4), y - look_.u(8), look_.u(8), look_.u(16)},
                         look_.u(2), c_.heather);
        y_ += look_.type(25);
    }

    double fitting(const std::string& words, double room) const {
        const double w = look_.width(Face::sans, look_.type(16), words);
        return w > room ? 16 * room / w : 16;
    }

    void button() {
        button_at(panel_.bottom() - look_.u(16) - look_.type(22) - button_height(),
                  "Log it, next putt", "Enter");
    }

    const ReviewNote& note_;
};

}  // namespace

Frame ReviewMode::frame(const TextWidth& width) {
    const Look look = this->look(width);
    Frame frame;
    targets_.clear();
    draw_green(frame, look);
    Picture& picture = frame.picture;
    const Trail& rolled = struck_trail_.empty() ? meant_trail_ : struck_trail_;
    draw_roll_strip(picture, targets_, playback_, rolled, attention(), look);
    draw_setup_strip(picture, targets_, putt_.setup, true, typed_field(), attention(), look);
    draw_note(picture, look);
    TopBarState top = top_bar_of_mode();
    if (putt_.setup.green) top.name = putt_.setup.green->name;
    draw_top_bar(picture, targets_, top, attention(), look);
    draw_message_bar(picture, targets_, {message_, "Close"}, layout_.green, attention(), look);
    draw_sheet(picture, look);
    return frame;
}

void ReviewMode::draw_green(Frame& frame, const Look& look) {
    Solved shown = read_;
    shown.read = meant_;
    shown.second.reset();
    shown.none.reset();
    shown.instead.reset();
    shown.choices.clear();
    MapView view;
    view.taught = false;
    view.time_s = struck_trail_.empty() ? playback_.time_s : meant_trail_.end_s();
    std::vector<Vec2> struck;
    if (!struck_trail_.empty())
        for (const Vec2& at : struck_trail_.line(struck_trail_.end_s()))
            struck.push_back(camera_.to_px(at));
    add_obstacles(view.avoid, struck, look.u(6));
    if (putt_.end) {
        const Vec2 end = camera_.to_px(on_green(read_.putt, *putt_.end));
        view.avoid.push_back({end.x() - look.u(15), end.y() - look.u(15), look.u(30), look.u(30)});
    }
    plan_ = plan_picture(shown, meant_trail_, camera_, layout_.green, view, look, labels_);
    frame.picture = std::move(plan_.picture);
    frame.picture.push_back(Clip{layout_.green});
    draw_end(frame.picture, look);
    frame.picture.push_back(Clip{});
    const PlayerPoint end = putt_.end.value_or(PlayerPoint{});
    const bool held = handle_ != Handle::none;  // heights find their places when it is let go
    frame.ground_key = std::hash<std::string>{}(fmt::format(
        "{} {} {} {} {} {} {} {} {} {} {} {} {} {} {} {}", putt_.setup.slope, putt_.setup.clock_h,
        read_.putt.distance_m(), putt_.setup.stimp_ft,
        static_cast<const void*>(putt_.setup.green.get()), dusk_, text(), units().metric,
        camera_.px_per_m, camera_.centre_m.x(), camera_.centre_m.y(), layout_.green.w,
        held ? 0 : end.along_m, held ? 0 : end.offset_m, meant_aim_m(), meant_level_putt_m()));
    if (frame.ground_key == last_ground_key_) return;
    last_ground_key_ = frame.ground_key;
    frame.ground = plan_ground(shown, camera_, layout_.green, plan_.taken, look,
                               held ? std::vector<Rect>() : boxes_of_words(frame.picture, look));
}

/// The stroke that was struck, in dashes, and the ball where it stopped.
void ReviewMode::draw_end(Picture& picture, const Look& look) {
    if (!putt_.end || putt_.holed) return;
    const Colour heather = look.colours.heather, surface = surface_colour(look.colours);
    std::vector<Vec2> line;
    if (!struck_trail_.empty())
        for (const Vec2& at : struck_trail_.line(playback_.time_s))
            line.push_back(camera_.to_px(at));
    if (line.size() > 1) {
        picture.push_back(Line{line, look.u(9), faded(surface, 0.8)});
        add_dashes(picture, line, look.u(11), look.u(7), look.u(5), heather);
        if (!playback_.complete()) draw_ball(picture, line.back(), look.u(7), look);
    }
    const Vec2 at = camera_.to_px(on_green(read_.putt, *putt_.end));
    picture.push_back(Disc{at, look.u(13.5), surface});
    picture.push_back(Disc{at, look.u(11.5), heather});
    picture.push_back(Disc{at, look.u(7), rgb(0xFFFFFF)});
    const bool hot =
        (focus_ && *focus_ == FocusStop::on(What::answer, review_end)) || handle_ == Handle::end;
    if (hot) add_ring(picture, at, look.u(24), look.u(1.4), look.colours.copper);
    Label label{"end",
                {{"finished here", Face::sans_bold, look.type(18), heather},
                 {end_words(), Face::book, look.type(23), heather}},
                at,
                look.u(18)};
    label.must = true;
    std::vector<Rect> obstacles = plan_.taken;
    std::vector<Vec2> whole;
    if (!struck_trail_.empty())
        for (const Vec2& p : struck_trail_.line(struck_trail_.end_s()))
            whole.push_back(camera_.to_px(p));
    add_obstacles(obstacles, whole, look.u(6));
    obstacles.push_back({at.x() - look.u(14), at.y() - look.u(14), look.u(28), look.u(28)});
    const std::vector<Label> labels = {label};
    draw_labels(picture, place_labels(labels, obstacles, layout_.green, look.width), look, surface);
}

void ReviewMode::draw_note(Picture& picture, const Look& look) {
    ReviewNote note;
    note.aim = aim_words(meant_aim_m(), units());
    note.pace = level_putt_words(meant_level_putt_m(), units());
    if (putt_.end) note.end = end_words();
    note.holed = putt_.holed;
    note.kept = kept_.size();
    note.sentences = sentences();
    note.typing = typing_;
    if (split_ && !putt_.holed) {
        const double level = std::max(meant_level_putt_m() + start_.usual_past_m, 0.1);
        const double doubts[] = {doubts_.slope, doubts_.stimp_ft, doubts_.line_rad,
                                 std::hypot(doubts_.pace, doubts_.pace_floor_m / level)};
        std::vector<int> order = {2, 3, 0, 1};  // line, pace, slope, green speed
        for (const int i : order) {
            note.doubts[note.causes.size()] = doubts[i];
            note.causes.emplace_back(
                cause_part_words(static_cast<Cause>(i), split_->parts[i], means_, units()),
                &split_->parts[i]);
        }
    }
    ReviewPen(picture, targets_, note, attention(), look).paint();
}

}  // namespace dewtrail
