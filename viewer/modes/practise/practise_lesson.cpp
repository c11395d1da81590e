#include <algorithm>

#include "greens/input_error.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/practice/coach/kept_lessons.hpp"
#include "viewer/practice/coach/lesson_file.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/words.hpp"

/// The lesson that is seen as a view of Practise. It stays as it is, whatever is putted meanwhile,
/// until another is asked for.
namespace dewtrail {
namespace {

/// From this one on.
std::vector<DealtPutt> rest_of(const std::vector<DealtPutt>& putts, int first) {
    return {putts.begin() + first, putts.end()};
}

}  // namespace

void PractiseMode::see_lesson(const TaughtLesson& lesson, SeenLesson from) {
    Greenkeeper keeper(start_.green_folders);
    from.told = dewtrail::told(lesson, start_.player.usual_past_m, keeper, shell_.units());
    from.told_in = shell_.units();
    lesson_ = std::move(from);
}

/// On a theme; an empty one: what the answers call for.
void PractiseMode::plan_on(const std::string& theme) {
    try {
        LessonFor who = lesson_today(shell_.appearance().pupil, start_.player, shell_.units());
        who.theme = theme;
        who.stimp_ft = lesson_.stimp_ft.value_or(who.stimp_ft);
        Greenkeeper keeper(start_.green_folders);
        see_lesson(plan_lesson(who, progress(), keeper), {theme, lesson_.stimp_ft});
        page_.to_top();
    } catch (const std::runtime_error& error) {
        shell_.complain(error);
    }
}

/// Its sentences and figures, in the units of now.
void PractiseMode::tell_lesson() {
    if (lesson_.told && lesson_.told_in.metric != shell_.units().metric)
        see_lesson(TaughtLesson(lesson_.told->lesson), lesson_);
}

void PractiseMode::say_stimp(const std::string& text) {
    lesson_.stimp_ft = parse_stimp_ft(text);
    if (lesson_.file.empty()) return plan_on(lesson_.theme);
    TaughtLesson changed = lesson_.told->lesson;
    changed.stimp_ft = *lesson_.stimp_ft;
    see_lesson(changed, lesson_);
}

void PractiseMode::choose_lesson() {
    std::vector<std::string> rows{by_answers_words(shell_.appearance().pupil)};
    for (const DemonstrationName& name : demonstration_names())
        rows.push_back(as_sentence(std::string(name.title)));
    shell_.open_list("A lesson on", std::move(rows), "", [this](int row) {
        plan_on(row == 0
                    ? ""
                    : std::string(demonstration_names()[static_cast<std::size_t>(row - 1)].key));
        shell_.act("lesson");
    });
    shell_.act("lessons");
}

void PractiseMode::open_lesson() {
    const auto files = kept_lessons(start_.memory_folder);
    std::vector<std::string> rows;
    for (const auto& file : files) rows.push_back(file.stem().string());
    shell_.open_list("Kept lessons", std::move(rows), "None is kept yet.", [this, files](int row) {
        try {
            const auto& file = files[static_cast<std::size_t>(row)];
            see_lesson(load_lesson(file), {.file = file});
            page_.to_top();
            shell_.act("lesson");
        } catch (const std::runtime_error& error) {
            shell_.complain(error);
        }
    });
    shell_.act("kept-lessons");
}

void PractiseMode::keep_lesson() {
    if (!lesson_.told) return;
    try {
        const auto file =
            dewtrail::keep_lesson(start_.memory_folder, lesson_.told->lesson, today());
        if (start_.in_browser)
            shell_.say("Kept in this page as " + file.stem().string() + "; open lists it.");
        else
            shell_.say("Kept as text, to be changed and opened again: " + file.string(), file);
    } catch (const std::runtime_error& error) {
        shell_.complain(error);
    }
}

/// What is clicked in it, by its number.
void PractiseMode::begin_part(int part) {
    if (part == lesson_seen) return choose_view(static_cast<int>(View::lesson));
    if (part == lesson_other) return choose_lesson();
    if (part == lesson_open) return open_lesson();
    if (part == lesson_keep) return keep_lesson();
    if (!lesson_.told) return;
    if (part == lesson_print) return shell_.print("lesson");
    const TaughtLesson& lesson = lesson_.told->lesson;
    if (part == lesson_shown) return shell_.change_mode(ModeName::compare, lesson.theme);
    const int putt = part - lesson_putt, drill = part - lesson_drill;
    if (putt >= 0 && putt < static_cast<int>(lesson.homework.size()))
        return begin_homework(rest_of(lesson.homework, putt));
    if (drill >= 0 && drill < static_cast<int>(lesson.drills.size()))
        begin_drill(TaughtDrill(lesson.drills[static_cast<std::size_t>(drill)]));
}

void PractiseMode::begin_drill(const TaughtDrill& drill) {
    if (drill.drill == Drill::slope) return begin_slope(drill.putts);
    LessonPlan plan = next_plan(start_.plan);
    plan.drill = drill.drill;
    plan.putts = drill.putts;
    if (!drill.green.empty()) plan.ranges.greens = {drill.green};
    begin_session(std::move(plan));
    if (shell_.message().empty()) shell_.say(drill.say);
}

void PractiseMode::begin_homework(std::vector<DealtPutt> putts) {
    try {
        Greenkeeper keeper(start_.green_folders);
        for (const DealtPutt& putt : putts) keeper.set_up(putt);
    } catch (const InputError& error) {  // a green that was there has gone
        return shell_.complain(error);
    }
    LessonPlan plan = next_plan(start_.plan);
    plan.set = std::move(putts);
    begin_session(std::move(plan));
}

std::vector<Value> PractiseMode::lesson_fields() {
    if (!lesson_.told) return {};
    Value stimp{"stimp", FocusStop::on(What::answer, answer_stimp),
                format_stimp(lesson_.told->lesson.stimp_ft),
                [this](const std::string& text) { say_stimp(text); }, 25};
    stimp.where = [h = shell_.layout().type(34), up = shell_.layout().u(4)](const Rect& hit) {
        return Rect{hit.x, hit.bottom() - h - up, hit.w, h};
    };
    return {stimp};
}

double PractiseMode::paint_lesson(const Canvas& canvas, const Rect& box) const {
    if (lesson_.told) return draw_lesson(canvas, *lesson_.told, box);
    return Brush(canvas).paragraph("There is no lesson yet.", Face::book, 34, box.x,
                                   box.y + canvas.look.type(10), box.w, 42,
                                   canvas.look.colours.ink);
}

double PractiseMode::paint_lesson_note(const Canvas& canvas, double from_px) const {
    LessonNote note;
    note.about = about_words(lesson_, shell_.appearance().pupil);
    note.any = lesson_.told.has_value();
    if (note.any && shell_.typed_index(What::answer) != answer_stimp)
        note.stimp = format_stimp(lesson_.told->lesson.stimp_ft);
    return draw_lesson_note(canvas, note, from_px);
}

std::shared_ptr<const TaughtLesson> PractiseMode::lesson_to_print() const {
    if (view_ != View::lesson || !lesson_.told) return nullptr;
    return std::make_shared<const TaughtLesson>(lesson_.told->lesson);
}

}  // namespace dewtrail
