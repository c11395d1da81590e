#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "physics/read/survey_advice.hpp"
#include "viewer/modes/shell/history.hpp"
#include "viewer/modes/shell/mode.hpp"
#include "viewer/picture/camera.hpp"
#include "viewer/survey/green_draft.hpp"
#include "viewer/survey/green_save.hpp"

namespace dewtrail {

/// How Green begins, and what it needs of the world outside.
struct GreenStart {
    std::optional<GreenDraft> draft{};  ///< to go on with; none: nothing is surveyed yet
    /// That can be opened, by name.
    std::function<std::vector<std::string>()> greens = [] { return std::vector<std::string>(); };
    std::function<std::shared_ptr<const Green>(const std::string&)> load{};
    /// Writes the draft among the player's greens. Refuses to replace another green unless told
    /// to. InputError and OutsideError say why nothing was written.
    std::function<SavedGreen(const GreenDraft&, bool replace)> save{};
    /// Remembers a survey that is not saved; none: there is nothing to remember.
    std::function<void(const std::optional<GreenDraft>&)> keep{};
};

/// The mode Green: a level is laid down on spots, the readings make a surface, and the surface says
/// where it is not known yet.
class GreenMode final : public Mode {
  public:
    GreenMode(const Appearance& appearance, GreenStart start);

    ModeName name() const override { return ModeName::green; }
    void pointer_moved(const Vec2& px, Held held) override;
    void pointer_pressed(const Vec2& px, Button button, Held held, bool twice = false) override;
    void pointer_released(const Vec2& px) override;
    void wheel(double clicks, const Vec2& px, Held held) override;
    void press(KeyPress pressed) override;
    void typed(const std::string& text) override;
    bool advance(double seconds) override { return advance_theme(seconds); }
    Frame frame(const TextWidth& width) override;
    std::optional<Typing> typing() const override;
    bool hand_cursor() const override;
    State state() const override;
    std::vector<std::pair<std::string, Vec2>> places() const override;

    const GreenDraft& draft() const { return draft_; }
    const SurfaceFit& fit() const { return fit_; }
    bool fitted() const { return fit_.status == FitStatus::fitted; }
    const std::optional<NextSpot>& next() const { return next_; }

  private:
    /// What the arrows move, and a drag takes hold of.
    enum class Thing { none, spot, drop, hole, ball };
    enum class Refit { now, later };

    void relayout() override;
    void arrived(const std::optional<Setup>& putt) override;
    std::optional<Setup> putt_at_hand() const override;
    const HelpLines& help() const override;
    std::vector<std::pair<std::string, std::string>> pages() const override;
    void row_chosen(What what, int index) override;

    // green_mode.cpp: the draft, and what follows from it
    void change(GreenDraft draft, const std::string& name, Refit refit = Refit::now);
    void work_out(const SurfaceFit* known = nullptr);
    void look_for_doubts();
    void look_for_mist();
    void keep();
    void undo(bool back);
    void begin(GreenDraft draft, const std::string& name, const SurfaceFit* known = nullptr);
    void open_green(const std::string& name);
    void save();
    void use();
    void fit_camera();
    bool unsaved() const { return draft_ != saved_; }
    const Spot* chosen_spot() const;
    std::string heading() const;
    std::vector<std::string> sentences() const;
    std::string as_text() const;
    std::vector<std::size_t> rows() const;  ///< spots, those to read again first

    // green_input.cpp
    void click(const Target& target, bool twice);
    Thing thing_at(const Vec2& px, std::size_t& spot) const;
    void drag_to(const Vec2& px);
    bool press_ctrl(KeyPress pressed);
    bool press_letter(KeyPress pressed);
    void choose_spot(std::size_t index);
    void step_spot(int by);
    void add_spot(const Vec2& at);
    Vec2 place_for_new_spot() const;
    void remove();
    void move_by(const Vec2& metres);
    void turn_by(double degrees);
    void steepen_by(double slope);
    void put_ball();
    void begin_typing(int field);
    std::string typed_now(int field) const;

    // green_map.cpp
    void draw_map(Frame& frame, const Look& look);
    void draw_ground(Frame& frame, const Look& look, const std::vector<Rect>& taken);
    Mesh mist(const Look& look) const;
    void draw_marks(Picture& picture, const Look& look, std::vector<Rect>& taken);
    void draw_chosen(Picture& picture, const Look& look) const;
    void draw_scale(Picture& picture, const Look& look, std::vector<Rect>& taken) const;
    Vec2 drop_px(const Spot& spot) const;

    // green_note.cpp
    void draw_note(Picture& picture, const Look& look);

    GreenStart start_;
    std::vector<std::string> listed_;  ///< greens in the open list
    GreenDraft draft_, saved_;
    History<GreenDraft> history_;
    SurfaceFit fit_;
    std::shared_ptr<const Green> green_;  ///< none until it is fitted
    std::vector<bool> doubtful_;          ///< of each spot: worth reading again
    std::optional<std::size_t> worst_;    ///< the one of them that disagrees most
    double worst_off_ = 0;
    LineDoubt line_doubt_;
    std::optional<NextSpot> next_;
    struct Mist {
        static constexpr int columns = 16, rows = 12;
        Vec2 least{0, 0}, step{0, 0};
        std::vector<double> slope_sd;  ///< row by row

        double at(const Vec2& place) const;  ///< between the points of the lattice
    };
    Mist mist_;
    std::size_t fits_ = 0;  ///< counted, for the ground's key
    Thing thing_ = Thing::none;
    std::size_t spot_ = 0;  ///< the chosen one, where thing_ is a spot
    std::size_t first_row_ = 0;
    bool list_follows_ = true;  ///< the chosen spot, until the wheel turns the list
    Thing handle_ = Thing::none;
    GreenDraft before_drag_;
    bool replace_ = false;  ///< asked once whether another green shall go
    PlanCamera camera_;
};

/// What can be typed in Green, by Target::index of What::answer.
inline constexpr int green_reading = 0, green_place = 1, green_name = 2, green_stimp = 3;

}  // namespace dewtrail
