#include "viewer/modes/review/review_mode.hpp"

#include <cmath>

#include "physics/read/told_stroke.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/practice/drill/category.hpp"
#include "viewer/practice/review/review_log.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

ReadOptions described() {
    ReadOptions options;
    options.keep_path = true;
    options.look_for_others = options.room = options.costs = false;
    return options;
}

}  // namespace

ReviewMode::ReviewMode(Shell& shell, ReviewStart start)
    : Mode(shell),
      start_(std::move(start)),
      editor_(shell, {[this] { return putt_.setup; },
                      [this](const PuttEditor::Edit& edit, const std::string& name) {
                          change([&](RealPutt& putt) { edit(putt.setup); }, name, Ground::changed);
                      }}),
      memory_(start_.memory_folder),
      doubts_(doubts_of(start_.spread)) {
    putt_.setup = start_.setup;
    work_out(Ground::changed);
}

void ReviewMode::arrived(const std::optional<Setup>& putt) {
    if (!putt) return;
    shell_.remember();
    putt_ = {};
    putt_.setup = *putt;
    work_out(Ground::changed);
    fit_camera();
}

SaidAim ReviewMode::meant_aim() const {
    if (putt_.aim) return *putt_.aim;
    return {read_.read && read_.read->aim_offset_m ? *read_.read->aim_offset_m : 0};
}

double ReviewMode::meant_level_putt_m() const {
    if (putt_.level_putt_m) return *putt_.level_putt_m;
    return read_.read ? read_.read->level_putt_m : read_.putt.distance_m();
}

void ReviewMode::change(const std::function<void(RealPutt&)>& edit, const std::string& name,
                        Ground ground) {
    RealPutt putt = putt_;
    edit(putt);
    shell_.remember();
    putt_ = std::move(putt);
    work_out(ground);
    if (ground == Ground::changed && !shell_.dragging()) fit_camera();
    shell_.act(name);
}

void ReviewMode::put_back(const std::any& putt) {
    putt_ = std::any_cast<const RealPutt&>(putt);
    work_out(Ground::changed);
    fit_camera();
}

/// The read of the ground as believed, the stroke that was meant, the one that was struck, and the
/// likeliest split.
void ReviewMode::work_out(Ground ground) {
    if (ground == Ground::changed) read_ = solve(putt_.setup, start_.usual_past_m, Effort::live);
    split_.reset();
    played_.reset();
    trouble_.clear();
    struck_trail_ = {};
    const double level_roll_m = level_roll_of_putt_m(meant_level_putt_m(), start_.usual_past_m);
    meant_ = describe_stroke(read_.putt, told_stroke(read_.putt, meant_aim_m(), level_roll_m),
                             described());
    meant_trail_ = Trail(meant_);
    shell_.playback.load(meant_trail_.end_s());
    if (putt_.end && !putt_.holed) review();
}

/// Which stroke ended there, and what most likely went wrong.
void ReviewMode::review() {
    const ToldRest rest{{putt_.end->along_m - read_.putt.distance_m(), putt_.end->offset_m},
                        {metres_per_inch, metres_per_inch},
                        true};
    played_ = played_putt(placed(putt_.setup), meant_aim_m(), meant_level_putt_m(), rest,
                          start_.usual_past_m);
    if (!played_) return void(trouble_ = "On this slope a ball would hardly stop.");
    if (const auto struck = stroke_that_ends_at(*played_)) {
        struck_trail_ = Trail(describe_stroke(read_.putt, struck->stroke, described()));
        shell_.playback.load(struck_trail_.end_s());
    }
    std::vector<PlayedPutt> all = kept_;
    all.push_back(*played_);
    split_ = split_of(all, doubts_);
    if (!split_) trouble_ = "No stroke was found that ends there.";
    means_ = means_of(all);
}

/// Into the log, and on to the next putt of this green.
void ReviewMode::keep() {
    if (!putt_.end && !putt_.holed)
        return shell_.complain("Put the ball down where it stopped, or press H if it went in.");
    try {
        memory_.remember(logged());
    } catch (const std::runtime_error& error) {
        return shell_.complain(error);
    }
    if (played_) kept_.push_back(*played_);
    RealPutt next;
    next.setup = putt_.setup;
    shell_.forget_history();
    putt_ = next;
    work_out(Ground::same);
    shell_.say("Logged. Move the ball to the next putt.");
    shell_.act("kept");
}

LoggedPutt ReviewMode::logged() const {
    LoggedPutt log;
    log.date = today();
    if (putt_.setup.green) log.green = putt_.setup.green->name;
    log.hole = putt_.setup.hole_name;
    log.distance_m = read_.putt.distance_m();
    log.slope = slope_at_hole(putt_.setup);
    log.clock_h = clock_of(putt_.setup);
    log.stimp_ft = putt_.setup.stimp_ft;
    log.aim_m = meant_aim_m();
    log.level_putt_m = meant_level_putt_m();
    log.holed = putt_.holed;
    const Category kind = category_of(read_.putt);
    log.side = name_of(kind.side);
    log.grade = name_of(kind.grade);
    if (!putt_.holed && putt_.end) {
        log.past_m = putt_.end->along_m - read_.putt.distance_m();
        log.right_m = putt_.end->offset_m;
    }
    return log;
}

Layout ReviewMode::lay_out() const {
    constexpr double note_u = 370;
    Layout l = dewtrail::lay_out(shell_.appearance(), true);
    set_note_height(l, l.type(note_u));
    return l;
}

bool ReviewMode::wheel(double clicks, const Vec2& px, Held) {
    return shell_.layout().note.contains(px) && note_.wheel(clicks, shell_.layout().scale);
}

void ReviewMode::fit_camera() {
    std::vector<Vec2> points = to_be_seen(read_);
    const double room = std::max(0.6, 0.12 * read_.putt.distance_m());
    for (const PlayerPoint& p : {PlayerPoint{read_.putt.distance_m() + room, room},
                                 PlayerPoint{read_.putt.distance_m() + room, -room}})
        points.push_back(on_green(read_.putt, p));
    if (putt_.end) points.push_back(on_green(read_.putt, *putt_.end));
    const Layout& l = shell_.layout();
    camera_ = fit_plan(points, l.green, l.scale, plan_turn(l, read_.putt));
}

bool ReviewMode::advance(double seconds) {
    const bool moving = shell_.playback.running;
    shell_.playback.advance(seconds);
    return moving;
}

std::string ReviewMode::end_words() const {
    if (!putt_.end) return "";
    const double past = putt_.end->along_m - read_.putt.distance_m(), right = putt_.end->offset_m;
    constexpr double nothing_m = 0.005;
    std::string words;
    if (std::abs(past) >= nothing_m)
        words = format_length(past, shell_.units()) + (past < 0 ? " short" : " past");
    if (std::abs(right) >= nothing_m)
        words += (words.empty() ? "" : ", ") + format_length(right, shell_.units()) +
                 (right > 0 ? " right" : " left");
    return words.empty() ? "on the hole" : words;
}

std::vector<std::string> ReviewMode::sentences() const {
    std::vector<std::string> words;
    if (putt_.holed) return {"Holed: there is nothing to split."};
    const std::string plan = plan_words(read_.putt, meant_aim_m(), meant_level_putt_m(),
                                        start_.usual_past_m, shell_.units());
    if (!plan.empty()) words.push_back(plan);
    if (!trouble_.empty()) words.push_back(trouble_);
    if (split_)
        for (const std::string& sentence : verdict_words(*split_, means_, shell_.units()))
            words.push_back(sentence);
    return words;
}

std::string ReviewMode::as_text() const {
    std::string text;
    if (putt_.end) text = end_words() + ".";
    for (const std::string& sentence : sentences()) text += " " + sentence;
    return text;
}

Pages ReviewMode::pages() const {
    Pages pages;
    if (read_.read) pages.emplace_back("This read", "read");
    pages.emplace_back("Blank form for results", "results");
    return pages;
}

Surround ReviewMode::surround() const {
    Surround round;
    if (putt_.setup.green) round.name = putt_.setup.green->name;
    return round;
}

State ReviewMode::state() const {
    State state = {{"kept", static_cast<double>(kept_.size())},
                   {"holed", putt_.holed},
                   {"aim_m", meant_aim_m()},
                   {"level_putt_m", meant_level_putt_m()},
                   {"distance_m", read_.putt.distance_m()},
                   {"has_end", putt_.end.has_value()}};
    if (putt_.end) {
        state.emplace_back("past_m", putt_.end->along_m - read_.putt.distance_m());
        state.emplace_back("right_m", putt_.end->offset_m);
    }
    if (split_) {
        state.emplace_back("first", split_->likely.empty()
                                        ? std::string()
                                        : std::string(dewtrail::name_of(split_->likely.front())));
        state.emplace_back("cannot_tell", split_->cannot_tell());
    }
    return state;
}

}  // namespace dewtrail
