#include "viewer/modes/practise/practise_mode.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "greens/input_error.hpp"
#include "physics/roll/green_speed.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/picture/map/eye_picture.hpp"

namespace dewtrail {
namespace {

constexpr double truth_after_s = 0.6, truth_fade_s = 0.5;
constexpr double rail_cups = 6;

/// The sessions to choose from: in words, and what they are.
struct Choice {
    const char* words;
    Drill drill;
    Occasion occasion;
};
constexpr const char* slope_choice = "Slope: say it, then lay the level down";
constexpr Choice choices[] = {{"Whole read: line and pace", Drill::read, Occasion::practice},
                              {"Line: the pace is given", Drill::line, Occasion::practice},
                              {"Pace: the line is given", Drill::pace, Occasion::practice},
                              {"Putt of the day", Drill::read, Occasion::day},
                              {"Ten-putt test of the week", Drill::read, Occasion::week}};

}  // namespace

PractiseMode::PractiseMode(const Appearance& appearance, PractiseStart start)
    : Mode(appearance),
      start_(std::move(start)),
      memory_(start_.memory_folder, [this](const std::string& words) { say(words); }) {
    relayout();
    // Even where no putt can be dealt there is a ground to draw.
    truth_ = solve(setup_, start_.player.usual_past_m, Effort::live);
    begin_session(start_.plan);
}

void PractiseMode::relayout() {
    layout_ = lay_out(appearance_.width, appearance_.height, text(), true);
    if (session_) fit_camera();
}

void PractiseMode::begin_session(LessonPlan plan) {
    message_.clear();
    session_.emplace(std::move(plan), memory_, start_.player.spread, start_.player.usual_past_m,
                     start_.green_folders);
    const std::string left_out = message_;  // by the memory
    help_chosen_ = view_chosen_ = false;
    act("session");
    next_putt();
    if (!left_out.empty()) say(left_out);
}

void PractiseMode::next_putt() {
    history_ = History<Said>();
    message_.clear();
    const Question* question = nullptr;
    try {
        question = session_->next();
    } catch (const InputError& error) {
        say(error.what());
    }
    if (!question) {
        stage_ = Stage::over;
        return act("over");
    }
    stage_ = Stage::asking;
    setup_ = question->plan.setup;
    truth_ = solve(setup_, start_.player.usual_past_m, Effort::settled);
    truth_trail_ = truth_.shown() ? Trail(*truth_.shown()) : Trail();
    played_trail_ = {};
    playback_ = {};
    // Where one begins tells nothing: straight at the hole, as long as it is.
    said_ = {gives_aim() ? *question->best.aim_offset_m : 0,
             gives_pace()
                 ? question->best.level_putt_m
                 : std::round(truth_.putt.distance_m() / metres_per_foot) * metres_per_foot,
             std::nullopt};
    vary();
    fit_camera();
    act("putt");
}

/// So that pictures and figures are not learned by heart: every third putt is looked at from behind
/// the ball, and the ground tells less to one who reads it well. What the player has chosen stays.
void PractiseMode::vary() {
    if (!view_chosen_) {
        view_ = session_->question()->number % 3 == 0 ? View::eye : View::plan;
        forget_ground();
    }
    if (help_chosen_) return;
    constexpr std::size_t looked_at = 10;
    constexpr double well = 8;
    double sum = 0;
    std::size_t count = 0;
    const auto& answers = session_->answers();
    for (auto a = answers.rbegin(); a != answers.rend() && count < looked_at; ++a)
        if (a->score) sum += *a->score, ++count;
    const bool reads_well = count == looked_at && sum >= well * static_cast<double>(count);
    help_ = reads_well ? GroundHelp::eye_only : GroundHelp::contours;
    if (help_ == GroundHelp::eye_only && !view_chosen_) view_ = View::eye;
}

const Progress& PractiseMode::progress() {
    if (!progress_) progress_ = progress_of(session_->answers(), memory_.putts(), start_.player);
    return *progress_;
}

/// The ball is struck as was said. First remembered, then shown.
void PractiseMode::roll_it() {
    try {
        session_->answer(said_.aim_m, said_.level_putt_m, said_.sure);
    } catch (const std::runtime_error& error) {
        say(error.what());
        return act("message");
    }
    ReadOptions options;
    options.usual_past_m = start_.player.usual_past_m;
    options.keep_path = options.open_hole = true;
    options.look_for_others = options.room = options.costs = false;
    const double level_roll =
        std::max(said_.level_putt_m + start_.player.usual_past_m, metres_per_inch);
    const Stroke stroke{std::atan2(said_.aim_m, truth_.putt.distance_m()),
                        speed_of_level_roll_m_s(level_roll, truth_.putt.resistance)};
    played_trail_ = Trail(describe_stroke(truth_.putt, stroke, options));
    playback_.load(played_trail_.end_s());
    playback_.seek(0);
    playback_.running = true;
    stage_ = Stage::rolling;
    progress_.reset();
    act("answered");
}

/// What Enter and the button do.
void PractiseMode::go_on() {
    switch (stage_) {
        case Stage::asking:
            return roll_it();
        case Stage::rolling:
            return playback_.seek(playback_.end_s);
        case Stage::told:
            return next_putt();
        case Stage::slope:
            if (const auto next = spot_.next()) begin_typing(answer_slope + *next);
            return;
        case Stage::over: {
            LessonPlan plan = session_->plan();
            const NextDrill next = session_->end().next;
            ++plan.seed;
            plan.drill = next.drill;
            plan.putts = next.putts;
            plan.set.clear();
            plan.occasion = Occasion::practice;
            plan.date = today();
            return begin_session(std::move(plan));
        }
    }
}

/// Spot by spot, until another session is chosen.
void PractiseMode::begin_slope() {
    stage_ = Stage::slope;
    view_ = View::plan;
    spot_ = {};
    slope_words_.clear();
    forget_ground();
    act("slope");
}

void PractiseMode::typed_slope(int index, const std::string& text) {
    spot_.set(index, text);
    act("typed-slope");
    if (const auto next = spot_.next()) return begin_typing(answer_slope + *next);
    const Answer answer = spot_.answer();
    memory_.remember(answer);
    progress_.reset();
    slope_words_ = slope_result_words(answer);
    if (const auto habit = slope_habit(memory_.answers()))
        slope_words_ += fmt::format(" Over {} spots you feel {:.1f} % where it is {:.1f} %.",
                                    habit->answers, 100 * habit->felt, 100 * habit->shown);
    spot_ = {};
    focus_.reset();  // the next Enter begins the next spot
    act("answered");
}

void PractiseMode::change(const Said& said, const std::string& name) {
    if (stage_ != Stage::asking || said == said_) return;
    if (handle_ == Handle::none) history_.remember(said_);
    said_ = said;
    message_.clear();
    act(name);
}

void PractiseMode::undo(bool back) {
    if (stage_ != Stage::asking) return;
    if (const auto said = back ? history_.undo(said_) : history_.redo(said_)) {
        said_ = *said;
        act(back ? "undo" : "redo");
    }
}

/// The rail of the aim to both sides: what is seen does not tell which way it breaks.
void PractiseMode::fit_camera() {
    const Putt& putt = truth_.putt;
    const double rail = std::max(2 * rail_cups * hole_radius_m, 0.12 * truth_.putt.distance_m());
    std::vector<Vec2> points = {putt.ball, place_of_aim(putt, rail), place_of_aim(putt, -rail)};
    if (stage_ != Stage::asking) {
        const auto truth = to_be_seen(truth_);
        points.insert(points.end(), truth.begin(), truth.end());
        if (!played_trail_.empty()) points.push_back(played_trail_.at(played_trail_.end_s()).at);
    }
    camera_ = fit_plan(points, layout_.green, layout_.scale);
    eye_ = eye_of(truth_, EyePlace::crouched, layout_.green);
}

double PractiseMode::truth_share() const {
    if (!told()) return 0;
    if (appearance_.less_motion) return told_s_ >= truth_after_s ? 1 : 0;
    return std::clamp((told_s_ - truth_after_s) / truth_fade_s, 0.0, 1.0);
}

/// Every fourth aim is counted in inches or centimetres, so that one learns both.
AimUnit PractiseMode::aim_unit() const {
    const auto& question = session_->question();
    if (!question || question->number % 4 != 0) return AimUnit::words;
    return units().metric ? AimUnit::centimetres : AimUnit::inches;
}

/// The end of the pace's ruler: twice the putt, in whole feet or metres.
double PractiseMode::most_pace_m() const {
    const double unit = units().metric ? 1 : 4 * metres_per_foot;
    return unit * std::ceil(std::max(2 * truth_.putt.distance_m() / unit, 1.0));
}

bool PractiseMode::advance(double seconds) {
    bool moving = advance_theme(seconds);
    if (stage_ == Stage::rolling) {
        if (playback_.running) playback_.advance(seconds), moving = true;
        if (playback_.complete()) {
            playback_.running = false;
            stage_ = Stage::told;
            told_s_ = 0;
            fit_camera();
            act("rested");
        }
        return moving || stage_ == Stage::told;
    }
    if (stage_ == Stage::told) {
        if (playback_.running) playback_.advance(seconds), moving = true;
        const double end = truth_after_s + truth_fade_s;
        if (told_s_ < end) {
            told_s_ += seconds;
            if (told_s_ >= end) act("truth");
            moving = true;
        }
    }
    return moving;
}

void PractiseMode::open_sessions() {
    std::vector<std::string> rows;
    for (const Choice& choice : choices) rows.emplace_back(choice.words);
    rows.emplace_back(slope_choice);
    open_list("Practise", std::move(rows), What::session, "");
    act("sessions");
}

void PractiseMode::row_chosen(What what, int index) {
    if (what != What::session) return Mode::row_chosen(what, index);
    if (index == static_cast<int>(std::size(choices))) return begin_slope();
    const Choice& choice = choices[index];
    LessonPlan plan = start_.plan;
    plan.drill = choice.drill;
    plan.occasion = choice.occasion;
    plan.date = today();
    plan.seed = session_->plan().seed + 1;
    plan.set.clear();
    begin_session(std::move(plan));
}

/// Only what is told already goes along into another mode.
std::optional<Setup> PractiseMode::putt_at_hand() const {
    return told() ? std::optional(setup_) : std::nullopt;
}

std::vector<std::pair<std::string, std::string>> PractiseMode::pages() const {
    std::vector<std::pair<std::string, std::string>> pages;
    if (told()) pages.emplace_back("This read", "read");
    pages.emplace_back("How practice goes", "progress");
    pages.emplace_back("Blank form for results", "results");
    return pages;
}

const HelpLines& PractiseMode::help() const {
    static const HelpLines lines = {
        {"aim", "←  →, fine with Shift"},
        {"pace", "↑  ↓, fine with Shift"},
        {"type the aim, the pace", "A  V"},
        {"sure, not sure", "S"},
        {"roll it, next putt", "Enter"},
        {"pause, go on", "Space"},
        {"back, on", "J  L"},
        {"slow motion", "M"},
        {"plan, eye, progress", "P  E  G"},
        {"help: slope told, contours, none", "H"},
        {"another session", "Ctrl O"},
        {"undo, redo", "Ctrl Z  Y"},
        {"copy the result", "Ctrl C"},
    };
    return lines;
}

Mode::State PractiseMode::state() const {
    constexpr const char* stages[] = {"asking", "rolling", "told", "over", "slope"};
    constexpr const char* views[] = {"plan", "eye", "progress"};
    State state = {{"stage", stages[static_cast<int>(stage_)]},
                   {"view", std::string(views[static_cast<int>(view_)])},
                   {"aim_m", said_.aim_m},
                   {"level_putt_m", said_.level_putt_m},
                   {"time_s", playback_.time_s},
                   {"answers", static_cast<double>(session_->marked().size())},
                   {"undo", static_cast<double>(history_.undo_depth())}};
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
