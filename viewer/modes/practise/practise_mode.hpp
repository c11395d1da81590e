#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "viewer/modes/practise/lesson_picture.hpp"
#include "viewer/modes/shell/ground_state.hpp"
#include "viewer/modes/shell/scrolled_panel.hpp"
#include "viewer/modes/shell/shell.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/practice/drill/drill_session.hpp"
#include "viewer/practice/drill/slope_drill.hpp"
#include "viewer/practice/habits/progress.hpp"
#include "viewer/text/aim.hpp"

namespace dewtrail {

/// How Practise begins.
struct PractiseStart {
    std::filesystem::path memory_folder;
    std::vector<std::filesystem::path> green_folders{};
    Player player{};
    LessonPlan plan{};        ///< of the first session; later ones take its ranges
    bool in_browser = false;  ///< files are the page's own
};

/// What the player says: where to aim and how hard.
struct Said {
    SaidAim aim{};
    double level_putt_m = 0;
    std::optional<bool> sure{};

    bool operator==(const Said&) const = default;
};

/// The mode Practise: a putt is asked, the player answers, the ball rolls so, and the truth
/// follows. Every answer is remembered before its ball is shown at rest.
class PractiseMode final : public Mode {
  public:
    /// Throws as Memory does.
    PractiseMode(Shell& shell, PractiseStart start);

    ModeName name() const override { return ModeName::practise; }
    Commands commands() override;
    Layout lay_out() const override;
    void laid_out() override {
        tell_lesson();
        fit_camera();
    }
    void prepare(const Look& look, Picture& ground) override;
    void paint(const Canvas& canvas) const override;
    std::optional<Drag> grab(const Grip& grip) override;
    std::vector<Value> fields() override;
    bool advance(double seconds) override;
    std::any document() const override { return said_; }
    void put_back(const std::any& said) override { said_ = std::any_cast<const Said&>(said); }
    /// Putts may have been logged meanwhile, balls measured.
    void arrived(const std::optional<Setup>&) override;
    /// Only what is told already goes along into another mode.
    std::optional<Setup> putt_at_hand() const override;
    Surround surround() const override;
    Pages pages() const override;
    std::shared_ptr<const TaughtLesson> lesson_to_print() const override;
    std::string as_text() const override;
    bool wheel(double clicks, const Vec2& px, Held held) override;
    /// From the next session on.
    void spread_changed(const Spread& spread) override { start_.player.spread = spread; }
    State state() const override;
    Places places() const override;
    /// The aim, or the pace where the line is given; of the slope drill what comes next.
    std::optional<FocusStop> first_value() const override;
    std::string unfinished() const override;

    enum class Stage { asking, rolling, told, over, slope };
    Stage stage() const { return stage_; }
    const Said& said() const { return said_; }
    const DrillSession& session() const { return *session_; }

  private:
    enum class View { eye, plan, progress, lesson };

    // practise_mode.cpp: state and time
    void begin_session(LessonPlan plan);
    LessonPlan next_plan(LessonPlan plan) const;
    void next_putt();
    void roll_it();
    void go_on();
    void open_sessions();
    void choose_session(int index);
    void show_truth(const Setup& setup);
    void show_struck(const Marked& struck);
    void look_again(int putt);
    void begin_slope(int spots);
    void next_spot();
    void typed_slope(int index, const std::string& text);
    void change(const Said& said, const std::string& name);
    void see(View view);
    const Progress& progress();
    void fit_camera();
    bool gives_aim() const { return !kind_of(session_->plan().drill).asks_aim; }
    bool gives_pace() const { return !kind_of(session_->plan().drill).asks_pace; }
    /// The putt that was answered last, or one of the session's that is looked at again.
    const Marked& looked_at() const {
        return again_ ? session_->marked()[static_cast<std::size_t>(*again_)]
                      : session_->marked().back();
    }
    bool told() const { return again_ || (stage_ == Stage::told && looked_at().answer.told); }
    /// An aim and a pace can be said: the note asks for them.
    bool answering() const { return stage_ == Stage::asking && view_ != View::lesson; }
    /// The view is not of the putt.
    bool sees_page() const { return view_ == View::progress || view_ == View::lesson; }
    /// Something takes the place of the green: the end of a session, progress, a lesson, the slope
    /// drill.
    bool has_page() const {
        return sees_page() || stage_ == Stage::slope || (stage_ == Stage::over && !again_);
    }
    double truth_share() const;
    double most_pace_m() const;
    /// The ground's figures, or where the ball lies round the hole, may be read.
    bool slope_told() const { return truth_share() > 0 || shown_.slope; }
    bool clock_told() const { return truth_share() > 0 || used_.slope || used_.plan; }
    bool contours_seen() const { return truth_share() > 0 || shown_.contours; }
    bool first_ever() const;
    /// It has all its values, and nothing of the next is typed yet.
    bool spot_told() const { return !spot_.next() && !shell_.typed_index(What::answer); }
    SlopeSpot spot_seen() const;
    bool last_spot_told() const { return spot_told() && spots_told_ == spots_; }
    std::string spot_count() const;
    std::string unsaid() const;

    // practise_input.cpp
    void begin_typing(int answer);
    void say_aim(const SaidAim& aim, const std::string& name);
    void say_pace(double level_putt_m, const std::string& name);
    void step_aim(double steps, bool fine);
    void step_pace(double steps, bool fine);
    void step_help(int step);
    std::optional<Vec2> green_at(const Vec2& px) const;
    std::optional<Vec2> px_of(const Vec2& green) const;
    double aim_half_u(const Look& look) const;
    std::optional<Vec2> aim_px() const {
        return px_of(place_of_aim(truth_.putt, said_.aim.offset_m));
    }
    Rect pace_ruler() const;
    void choose_view(int index);
    std::optional<HomeDrill> home() const;
    void drill_at_home();

    // practise_lesson.cpp
    void see_lesson(const TaughtLesson& lesson, SeenLesson from);
    void plan_on(const std::string& theme);
    void tell_lesson();
    void say_stimp(const std::string& text);
    void choose_lesson();
    void open_lesson();
    void keep_lesson();
    void begin_part(int part);
    void begin_drill(const TaughtDrill& drill);
    void begin_homework(std::vector<DealtPutt> putts);
    std::vector<Value> lesson_fields();
    double paint_lesson(const Canvas& canvas, const Rect& box) const;
    double paint_lesson_note(const Canvas& canvas, double from_px) const;

    // practise_picture.cpp
    void draw_answer(Picture& picture, const Look& look) const;
    std::vector<Rect> draw_rail(Picture& picture, const Look& look) const;
    void name_ends_of_rail(Picture& picture, const Look& look, std::vector<Rect>& taken) const;
    void draw_played(Picture& picture, const Look& look) const;
    void draw_names(Picture& picture, const Look& look, const std::vector<Rect>& rail) const;
    void paint_pace(const Canvas& canvas) const;
    void paint_setting(const Canvas& canvas) const;
    std::string setting_words() const;
    // practise_page.cpp
    double paint_page(const Canvas& canvas, double from_px) const;
    double paint_slope_drill(const Canvas& canvas, const Rect& box) const;
    double paint_progress(const Canvas& canvas, const Rect& box) const;
    double paint_end(const Canvas& canvas, const Rect& box) const;
    static double paint_home(const Canvas& canvas, const Rect& box, double y);
    class NotePart;  // practise_note.cpp
    double paint_note(const Canvas& canvas, double from_px) const;
    Solved seen() const;
    std::vector<Rect> player_boxes(const Look& look) const;
    std::vector<Vec2> played_px(double time_s) const;

    PractiseStart start_;
    Memory memory_;
    std::optional<DrillSession> session_;
    Stage stage_ = Stage::over;
    std::vector<Setup> played_;  ///< the putts of the session that were answered
    std::optional<int> again_;   ///< of them the one that is looked at again, at the end
    View view_ = View::eye;
    Help used_, shown_;  ///< of this putt: all that was looked at, and what is now
    Setup setup_;
    Solved truth_;
    Trail truth_trail_, played_trail_;
    Said begun_, said_;  ///< where an answer begins, and what is said
    double told_s_ = 0;  ///< since the ball came to rest
    PlanCamera camera_;
    EyeCamera eye_;
    PlanPicture plan_;
    std::optional<GroundState> ground_;
    std::vector<Label> labels_;
    ScrolledPanel note_, page_;
    SlopeSpot spot_;                    ///< of the slope drill
    std::string slope_words_;           ///< on the spot that is told
    int spots_ = 0, spots_told_ = 0;    ///< of this round
    std::optional<Progress> progress_;  ///< looked up when it is first seen
    SeenLesson lesson_;                 ///< planned when it is first seen
};

/// What can be typed in Practise, by Target::index of What::answer.
inline constexpr int answer_aim = 0, answer_pace = 1, answer_slope = 10;

}  // namespace dewtrail
