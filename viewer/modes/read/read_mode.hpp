#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "viewer/modes/read/odds_told.hpp"
#include "viewer/modes/read/room_panel.hpp"
#include "viewer/modes/shell/ground_state.hpp"
#include "viewer/modes/shell/putt_editor.hpp"
#include "viewer/picture/camera.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/picture/widgets/note_picture.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/putt/solver.hpp"

namespace dewtrail {

/// How Read begins.
struct ReadStart : Appearance {
    Setup setup{};
    double usual_past_m = dewtrail::usual_past_m;
    bool eye = false, room = false, detail = false;
    bool outlook = true;                 ///< odds are worked out
    bool first_start = false;            ///< the ball rolls once by itself, and hints follow
    std::vector<NamedSpread> presets{};  ///< spreads to choose from
    /// Greens that can be opened, by name, and how; the loader throws InputError.
    std::function<std::vector<std::string>()> greens = [] { return std::vector<std::string>(); };
    std::function<std::shared_ptr<const Green>(const std::string&)> load{};
    std::shared_ptr<Solver> solver = solver_at_once();  ///< of putts that are let go
    std::shared_ptr<OutlookDesk> odds{};  ///< where they are worked out; null: a desk of its own
};

/// The mode Read: a putt is set up, read, looked at and rolled.
class ReadMode final : public Mode {
  public:
    ReadMode(Shell& shell, ReadStart start);

    ModeName name() const override { return ModeName::read; }
    Commands commands() override;
    Layout lay_out() const override {
        return dewtrail::lay_out(shell_.appearance(), note_shown_, rows_shown());
    }
    void laid_out() override;
    void prepare(const Look& look, Picture& ground) override;
    void paint(const Canvas& canvas) const override;
    std::optional<Drag> grab(const Grip& grip) override;
    std::vector<Value> fields() override;
    bool advance(double seconds) override;
    std::any document() const override { return setup_; }
    void put_back(const std::any& setup) override;
    void dropped() override;
    void arrived(const std::optional<Setup>& putt) override;
    std::optional<Setup> putt_at_hand() const override { return setup_; }
    Surround surround() const override;
    Pages pages() const override;
    std::string as_text() const override { return read_as_text(setup_, solved_, shell_.units()); }
    bool wheel(double clicks, const Vec2& px, Held held) override;
    std::vector<MarkId> marks_to_focus() const override;
    void spread_changed(const Spread& spread) override;
    void wait_until_settled() override { wait_for_outlook(); }
    /// Until the odds of the putt are there.
    void wait_for_outlook();
    Places places() const override;
    State state() const override;
    std::optional<FocusStop> first_value() const override {
        return FocusStop::on(What::field, static_cast<int>(Field::distance));
    }

    const Setup& setup() const { return setup_; }
    const Solved& solved() const { return solved_; }
    const Marks& marks() const { return plan_.marks; }
    /// Odds and room of the putt, and whether they are this very putt's.
    const Outlook& outlook() const { return odds_.outlook(); }
    bool outlook_fresh() const { return odds_.fresh(); }
    bool best_fresh() const { return odds_.best_fresh(); }
    OddsShown odds_shown() const;
    std::string view_words() const;
    bool detail() const { return note_state_.detail; }
    bool commit() const { return commit_; }
    Vec2 drop_px() const { return plan_.drop; }
    Vec2 bar_px() const { return plan_.bar; }
    Rect slope_figure() const { return plan_.slope_figure; }
    bool solving() const { return solving_.asked_s >= 0; }
    bool note_shown() const { return note_shown_; }

  private:
    // read_mode.cpp: state and time
    void change(const std::function<void(Setup&)>& edit, const std::string& name);
    void take(Solved solved);
    void solve_live();
    void ask_settled();
    void take_answer();
    void keep_putt();
    void swap_lines();
    void begin_easing();
    const Trail& shown_trail() const { return ease_.t < 1 ? ease_.shown : trail_; }
    void fit_camera(bool ease);
    bool rows_shown() const { return setup_.face == SlopeFace::three_rows && !setup_.green; }
    void show_note(bool shown);
    bool advance_easing(double seconds);
    bool advance_roll(double seconds);
    void set_view(bool eye);
    void choose_view(int index);
    void toggle_commit();
    void open_green(const std::string& name);
    void use_offer();
    void choose_finish(int index);
    void zoom(double factor, const Vec2& about);
    void hint_done(int hint);
    Rect pane() const { return shell_.layout().green; }

    // read_odds.cpp
    void ask_outlook();
    bool take_outlook();
    void take_best(BestKind kind);
    void choose_preset(int index);
    void toggle_spread();
    void remember_spread();
    void show_room();
    double lay_out_room(const Canvas& canvas) const;

    // read_commands.cpp
    void nudge(const Cue& cue);
    void turn_fall_line(double degrees);
    bool has_fall_line() const { return !setup_.green && uphill_at_hole(solved_.putt); }

    // read_drag.cpp
    MarkId mark_at(const Vec2& px) const;
    std::optional<Vec2> green_at(const Vec2& px) const;
    std::optional<Vec2> px_of(const Vec2& green) const;
    Drag hold(MarkId mark, const Vec2& from);
    Drag pan(const Vec2& from);
    void drag_ball(const Vec2& px, Held held);
    void drag_note_edge(const Vec2& px);
    double time_near(const Vec2& px) const;

    // read_frame.cpp
    void draw_map(const Look& look);
    NoteState note_state() const;
    MapView map_view() const;
    bool words_rest() const;
    GroundState ground_now(const Look& look) const;
    double lay_out_note(const Canvas& canvas) const;

    // read_overlays.cpp
    Rect place_box(const Look& look) const;
    void paint_commit(const Canvas& canvas) const;
    void draw_hint(Picture& picture, const Look& look) const;
    void draw_drag_figure(Picture& picture, const Look& look) const;
    void paint_note_edge(const Canvas& canvas) const;

    ReadStart start_;
    PuttEditor editor_;
    Setup setup_;
    Solved solved_;
    Trail trail_;
    /// What trail and marks come from while they move to `solved_`.
    struct {
        Solved before;
        Trail from, shown;
        double t = 1;
    } ease_;
    double since_drop_s_ = -1;  ///< since the ball fell; below 0: not just now
    bool note_shown_ = true, commit_ = false;
    /// Where the putt is seen from; `plan` moves between two others.
    struct {
        bool eye = false;
        EyePlace place = EyePlace::crouched;
        EyeCamera eye_camera;
        PlanCamera plan, from, to;
        double t = 1;
        bool zoomed = false;
        struct {
            bool eye = false, room = false;
            EyePlace place = EyePlace::crouched;
        } before_commit;
    } view_;
    /// Until the solver is asked in full, and since; below 0: not waited for.
    struct {
        double in_s = -1, asked_s = -1;
    } solving_;
    NoteState note_state_;
    /// The note, or the view Room, as it is laid out before each painting, which takes it.
    mutable struct {
        Picture picture;
        Targets targets;
        double height = 0;  ///< of the note
    } laid_;
    MarkId hovered_mark_ = MarkId::none;
    struct {
        int which = -1;  ///< the one that shows; none
        double left_s = 0;
    } hint_;
    double marks_share_ = 1;
    mutable PlanPicture plan_;  ///< the same: painting takes its picture
    std::vector<Label> wishes_for_labels_;
    std::vector<Rect> dry_;
    std::optional<GroundState> ground_;

    bool room_ = false, spread_open_ = false;
    Spread remembered_;  ///< as the player's file holds it
    OddsTold odds_;
    std::optional<BestKind> wanted_;  ///< to be taken as soon as it is known
};

}  // namespace dewtrail
