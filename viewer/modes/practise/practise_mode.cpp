#include "viewer/modes/practise/practise_mode.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "greens/input_error.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/picture/portrait.hpp"

namespace dewtrail {
namespace {

constexpr double truth_after_s = 0.6, truth_fade_s = 0.5;
constexpr double rail_cups = 6;

/// The sessions to choose from: in words, and what they are.
struct SessionChoice {
    const char* words;
    Drill drill;
    Occasion occasion;
};
/// Of the distance as it is told, in inches: 7 ft 6 in is the same on every putt.
double whole_feet_m(double distance_m) {
    return std::round(std::round(distance_m / metres_per_inch) / 12) * metres_per_foot;
}

constexpr const char* slope_choice = "Slope: say it, then lay the level down";
constexpr SessionChoice choices[] = {{"Whole read: line and pace", Drill::read, Occasion::practice},
                                     {"Line: the pace is given", Drill::line, Occasion::practice},
                                     {"Pace: the line is given", Drill::pace, Occasion::practice},
                                     {"Putt of the day", Drill::read, Occasion::day},
                                     {"Ten-putt test of the week", Drill::read, Occasion::week}};
constexpr int slope_row = std::size(choices), quiet_row = slope_row + 1;

}  // namespace

PractiseMode::PractiseMode(Shell& shell, PractiseStart start)
    : Mode(shell),
      start_(std::move(start)),
      memory_(start_.memory_folder, [this](const std::string& words) { shell_.say(words); }) {
    // Even where no putt can be dealt there is a ground to draw.
    truth_ = solve(setup_, start_.player.usual_past_m, Effort::live);
    begin_session(start_.plan);
}

void PractiseMode::begin_session(LessonPlan plan) {
    shell_.say("");
    session_.emplace(std::move(plan), memory_, start_.player.spread, start_.player.usual_past_m,
                     start_.green_folders);
    const std::string left_out = shell_.message();  // by the memory
    played_.clear();
    shell_.act("session");
    next_putt();
    if (!left_out.empty()) shell_.say(left_out);
}

/// Other putts than those of the session so far.
LessonPlan PractiseMode::next_plan(LessonPlan plan) const {
    plan.date = today();
    plan.seed = session_->plan().seed + 1;
    plan.set.clear();
    return plan;
}

/// A lesson leaves more room to its page.
void PractiseMode::see(View view) {
    const bool otherwise = (view == View::lesson) != (view_ == View::lesson);
    view_ = view;
    if (otherwise) shell_.lay_out_again();
}

const Progress& PractiseMode::progress() {
    if (!progress_) progress_ = progress_of(memory_, start_.player);
    return *progress_;
}

void PractiseMode::next_putt() {
    shell_.forget_history();
    shell_.say("");
    again_.reset();
    note_.to_top(), page_.to_top();
    const Question* question = nullptr;
    try {
        question = session_->next();
    } catch (const InputError& error) {
        shell_.say(error.what());
    }
    if (!question) {
        stage_ = Stage::over;
        return shell_.act("over");
    }
    stage_ = Stage::asking;
    show_truth(question->plan.setup);
    played_trail_ = {};
    shell_.playback = {};
    // Where one begins tells nothing: straight at the hole, as long as it is.
    begun_ = {{gives_aim() ? *question->best.aim_offset_m : 0},
              gives_pace() ? question->best.level_putt_m : whole_feet_m(truth_.putt.distance_m())};
    said_ = begun_;
    // The ground is read from behind the ball, without help until it is asked for.
    see(View::eye);
    used_ = shown_ = {};
    fit_camera();
    shell_.act("putt");
}

/// The ball is struck as was said. First remembered, then shown.
void PractiseMode::roll_it() {
    try {
        session_->answer(said_.aim.offset_m, said_.level_putt_m, said_.sure, used_);
    } catch (const std::runtime_error& error) {
        return shell_.complain(error);
    }
    shell_.forget_history();
    played_.push_back(setup_);
    show_struck(session_->marked().back());
    shell_.playback.seek(0);
    shell_.playback.running = true;
    stage_ = Stage::rolling;
    progress_.reset();
    shell_.act("answered");
}

void PractiseMode::show_truth(const Setup& setup) {
    setup_ = setup;
    truth_ = solve(setup_, start_.player.usual_past_m, Effort::settled);
    truth_trail_ = truth_.shown() ? Trail(*truth_.shown()) : Trail();
}

/// What was said of the putt, and the ball as it was struck.
void PractiseMode::show_struck(const Marked& struck) {
    said_ = {{*struck.answer.aim_m}, *struck.answer.level_putt_m, struck.answer.sure};
    played_trail_ = Trail(struck.mark.played);
    shell_.playback.load(played_trail_.end_s());
}

/// One of the session's putts, as it was told.
void PractiseMode::look_again(int putt) {
    again_ = putt;
    show_truth(played_[static_cast<std::size_t>(putt)]);
    show_struck(looked_at());
    shell_.playback.seek(shell_.playback.end_s);
    told_s_ = truth_after_s + truth_fade_s;
    if (sees_page()) see(View::plan);
    note_.to_top();
    fit_camera();
    shell_.forget_ground();
    shell_.act("again");
}

/// What Enter and the button do.
void PractiseMode::go_on() {
    if (view_ == View::lesson) return begin_part(lesson_shown);
    switch (stage_) {
        case Stage::asking:
            return roll_it();
        case Stage::rolling:
            if (shell_.playback.running) return shell_.playback.seek(shell_.playback.end_s);
            shell_.playback.running = true;
            return shell_.act("roll");
        case Stage::told:
            return next_putt();
        case Stage::slope:
            if (!spot_.next()) next_spot();
            return begin_typing(answer_slope + spot_.next().value());
        case Stage::over: {
            if (again_) {
                again_.reset();
                return shell_.act("end");
            }
            LessonPlan plan = next_plan(session_->plan());
            const NextDrill next = session_->end().next;
            plan.drill = next.drill;
            plan.putts = next.putts;
            plan.kind = next.kind;
            plan.occasion = Occasion::practice;
            return begin_session(std::move(plan));
        }
    }
}

/// Spot by spot, round by round, until another session is chosen.
void PractiseMode::begin_slope(int spots) {
    stage_ = Stage::slope;
    again_.reset();
    page_.to_top();
    see(View::eye);
    spots_ = spots_told_ = std::max(spots, 1);
    next_spot();
    shell_.forget_ground();
    shell_.act("slope");
}

/// Nothing of the spot before is left.
void PractiseMode::next_spot() {
    spot_ = {};
    slope_words_.clear();
    if (spots_told_ == spots_) spots_told_ = 0;
}

/// As far as it is said, or typed.
SlopeSpot PractiseMode::spot_seen() const {
    const auto index = shell_.typed_index(What::answer);
    if (!index) return spot_;
    return (spot_.next() ? spot_ : SlopeSpot{}).with(*index - answer_slope, shell_.typed_text());
}

std::string PractiseMode::spot_count() const {
    const int number = spot_told() ? spots_told_ : spots_told_ % spots_ + 1;
    return fmt::format("Spot {} of {}", number, spots_);
}

void PractiseMode::typed_slope(int index, const std::string& text) {
    if (!spot_.next()) next_spot();
    spot_.set(index, text);
    shell_.act("typed-slope");
    if (const auto next = spot_.next()) return begin_typing(answer_slope + *next);
    const Answer answer = spot_.answer();
    memory_.remember(answer);
    ++spots_told_;
    progress_.reset();
    slope_words_ = slope_result_words(answer);
    if (const auto habit = slope_habit(memory_.answers()))
        slope_words_ += fmt::format(" Over {} spots you feel {:.1f} % where it is {:.1f} %.",
                                    habit->answers, 100 * habit->felt, 100 * habit->shown);
    shell_.act("answered");
}

void PractiseMode::change(const Said& said, const std::string& name) {
    if (!answering() || said == said_) return;
    shell_.remember();
    said_ = said;
    shell_.act(name);
}

/// The rail of the aim to both sides: what is seen does not tell which way it breaks.
/// In portrait the note tells the setting in a line of its own.
Layout PractiseMode::lay_out() const {
    constexpr double note_u = 440, lesson_note_u = 366;
    Layout l = dewtrail::lay_out(shell_.appearance(), true);
    set_note_height_without_fields(l, l.type(view_ == View::lesson ? lesson_note_u : note_u));
    return l;
}

void PractiseMode::arrived(const std::optional<Setup>&) {
    progress_.reset();
    session_->forget_home();
}

void PractiseMode::fit_camera() {
    const Putt& putt = truth_.putt;
    const double rail = std::max(2 * rail_cups * hole_radius_m, 0.12 * truth_.putt.distance_m());
    std::vector<Vec2> points = {putt.ball, place_of_aim(putt, rail), place_of_aim(putt, -rail)};
    if (stage_ != Stage::asking) {
        const auto truth = to_be_seen(truth_);
        points.insert(points.end(), truth.begin(), truth.end());
        if (!played_trail_.empty()) points.push_back(played_trail_.at(played_trail_.end_s()).at);
    }
    const Layout& l = shell_.layout();
    camera_ = fit_plan(points, l.green, l.scale, plan_turn(l, putt));
    if (l.green.w > 0)
        eye_ =
            eye_of(truth_, EyePlace::crouched, l.green);  // before the first layout there is none
}

double PractiseMode::truth_share() const {
    if (!told()) return 0;
    if (shell_.less_motion()) return told_s_ >= truth_after_s ? 1 : 0;
    return std::clamp((told_s_ - truth_after_s) / truth_fade_s, 0.0, 1.0);
}

/// Nobody has answered here before: how to look is told.
bool PractiseMode::first_ever() const {
    return stage_ == Stage::asking && session_->answers().empty();
}

/// The end of the pace's ruler: twice the putt, in whole feet or metres.
double PractiseMode::most_pace_m() const {
    const double unit = shell_.units().metric ? 1 : 4 * metres_per_foot;
    return unit * std::ceil(std::max(2 * truth_.putt.distance_m() / unit, 1.0));
}

bool PractiseMode::advance(double seconds) {
    bool moving = false;
    if (stage_ == Stage::rolling) {
        if (shell_.playback.running) shell_.playback.advance(seconds), moving = true;
        if (shell_.playback.complete()) {
            shell_.playback.running = false;
            stage_ = Stage::told;
            told_s_ = 0;
            // What happened is seen best from above.
            if (view_ == View::eye && session_->marked().back().answer.told) view_ = View::plan;
            fit_camera();
            shell_.act("rested");
        }
        return moving || stage_ == Stage::told;
    }
    if (stage_ == Stage::told) {
        if (shell_.playback.running) shell_.playback.advance(seconds), moving = true;
        const double end = truth_after_s + truth_fade_s;
        if (told_s_ < end) {
            told_s_ += seconds;
            if (told_s_ >= end) shell_.act("truth");
            moving = true;
        }
    }
    return moving;
}

void PractiseMode::open_sessions() {
    std::vector<std::string> rows;
    for (const SessionChoice& choice : choices) rows.emplace_back(choice.words);
    rows.emplace_back(slope_choice);
    rows.emplace_back(start_.plan.quiet ? "Quiet putts: on. Tell every putt again"
                                        : "Quiet putts: two truths in three wait for the end");
    shell_.open_list("Drills", std::move(rows), "", [this](int index) { choose_session(index); });
    shell_.act("sessions");
}

void PractiseMode::choose_session(int index) {
    if (index == slope_row) return begin_slope(usual_spots);
    LessonPlan plan = next_plan(index == quiet_row ? session_->plan() : start_.plan);
    if (index == quiet_row) {
        plan.quiet = start_.plan.quiet = !start_.plan.quiet;
    } else {
        plan.drill = choices[index].drill;
        plan.occasion = choices[index].occasion;
    }
    begin_session(std::move(plan));
    if (index == quiet_row && start_.plan.quiet && session_->trend().empty())
        shell_.say("Every putt is told until there is a trend to tell.");
}

std::optional<Setup> PractiseMode::putt_at_hand() const {
    return told() ? std::optional(setup_) : std::nullopt;
}

std::string PractiseMode::unfinished() const {
    const auto answered = static_cast<int>(session_->marked().size());
    if (stage_ == Stage::over || stage_ == Stage::slope || answered == 0 ||
        answered == session_->putts())
        return "";
    return fmt::format("{} of {} putts answered", answered, session_->putts());
}

Pages PractiseMode::pages() const {
    Pages pages;
    if (lesson_to_print()) pages.emplace_back("This lesson", "lesson");
    if (told()) pages.emplace_back("This read", "read");
    pages.emplace_back("How practice goes", "progress");
    if (!lesson_to_print()) pages.emplace_back("A lesson that follows from it", "lesson");
    pages.emplace_back("Blank form for results", "results");
    return pages;
}

State PractiseMode::state() const {
    constexpr const char* stages[] = {"asking", "rolling", "told", "over", "slope"};
    constexpr const char* views[] = {"eye", "plan", "progress", "lesson"};
    State state = {{"stage", stages[static_cast<int>(stage_)]},
                   {"view", std::string(views[static_cast<int>(view_)])},
                   {"aim_m", said_.aim.offset_m},
                   {"level_putt_m", said_.level_putt_m},
                   {"help", words_of(used_)},
                   {"time_s", shell_.playback.time_s},
                   {"answers", static_cast<double>(session_->marked().size())}};
    if (lesson_.told) state.emplace_back("lesson", lesson_.told->lesson.theme);
    if (const auto& q = session_->question()) {
        state.emplace_back("number", static_cast<double>(q->number));
        state.emplace_back("true_aim_m", *q->best.aim_offset_m);
    }
    if (!session_->marked().empty()) {
        const Marked& last = session_->marked().back();
        state.emplace_back("score", last.mark.score);
        state.emplace_back("id", static_cast<double>(last.answer.id));
    }
    return state;
}

}  // namespace dewtrail
