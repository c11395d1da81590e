#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "physics/read/survey_advice.hpp"
#include "viewer/modes/shell/shell.hpp"
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
    GreenMode(Shell& shell, GreenStart start);

    ModeName name() const override { return ModeName::green; }
    Commands commands() override;
    Layout lay_out() const override;
    void laid_out() override { fit_camera(); }
    void prepare(const Look& look, Picture& ground) override;
    void paint(const Canvas& canvas) const override;
    std::optional<Drag> grab(const Grip& grip) override;
    std::vector<Value> fields() override;
    bool advance(double) override { return false; }
    std::any document() const override { return draft_; }
    void put_back(const std::any& draft) override;
    void dropped() override;
    void arrived(const std::optional<Setup>& putt) override;
    std::optional<Setup> putt_at_hand() const override;
    Pages pages() const override;
    std::string as_text() const override;
    bool wheel(double clicks, const Vec2& px, Held held) override;
    State state() const override;
    Places places() const override;
    std::optional<FocusStop> first_value() const override;

    const GreenDraft& draft() const { return draft_; }
    const SurfaceFit& fit() const { return fit_; }
    bool fitted() const { return fit_.status == FitStatus::fitted; }
    const std::optional<NextSpot>& next() const { return next_; }

  private:
    /// What the arrows move, and a drag takes hold of.
    enum class Thing { none, spot, drop, hole, ball };

    // green_mode.cpp: the draft, and what follows from it
    void change(const std::function<void(GreenDraft&)>& edit, const std::string& name);
    void work_out(const SurfaceFit* known = nullptr);
    void look_for_doubts();
    void look_for_mist();
    void keep();
    void open_draft(GreenDraft draft, const std::string& name, const SurfaceFit* known = nullptr);
    void open_green(const std::string& name);
    void save();
    void use();
    void fit_camera();
    bool unsaved() const { return draft_ != saved_; }
    const Spot* chosen_spot() const;
    bool in_sight(const Spot& spot) const;
    std::string heading() const;
    std::vector<std::string> sentences() const;
    /// What the chosen spot reads, or would as far as it is typed.
    std::optional<Vec2> reading_now() const;

    // green_input.cpp
    Thing thing_at(const Vec2& px, std::size_t& spot) const;
    void drag_to(Thing thing, const Vec2& px);
    void choose(Thing thing, std::size_t spot = 0);
    void step_spot(int by);
    void add_spot(const Vec2& at);
    Vec2 place_for_new_spot() const;
    void remove();
    void move_by(const Vec2& metres);
    void turn_by(double degrees);
    void steepen_by(double slope);
    void put_ball();
    void type_of_spot(int value);

    // green_map.cpp
    Mesh mist(const Look& look) const;
    void draw_marks(Picture& picture, const Look& look, std::vector<Rect>& taken) const;
    void draw_chosen(Picture& picture, const Look& look) const;
    void draw_bearings(Picture& picture, const Look& look, std::vector<Rect>& taken) const;
    void draw_scale(Picture& picture, const Look& look, std::vector<Rect>& taken) const;
    Vec2 drop_px(const Spot& spot) const;

    // green_note.cpp
    class NotePart;
    void paint_note(const Canvas& canvas) const;

    GreenStart start_;
    GreenDraft draft_, saved_;
    SurfaceFit fit_;
    std::optional<GreenDraft> fitted_to_;
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
    /// What the ground depends on.
    struct Ground {
        std::size_t fits;
        double dusk, text;
        bool metric;
        PlanCamera camera;
        Rect pane;
        std::vector<Rect> taken;  ///< by marks and words, which its lines leave free
        bool operator==(const Ground&) const = default;
    };
    std::optional<Ground> ground_;
    Picture marks_;         ///< that lie on it, as they are prepared
    std::size_t fits_ = 0;  ///< counted, for the ground
    Thing thing_ = Thing::none;
    std::size_t spot_ = 0;       ///< the chosen one, where thing_ is a spot
    std::size_t first_row_ = 0;  ///< of the list, as far as there are rows below it
    bool list_follows_ = true;   ///< the chosen spot, until the wheel turns the list
    bool replace_ = false;       ///< asked once whether another green shall go
    PlanCamera camera_;
};

/// What can be typed in Green, by Target::index of What::answer.
inline constexpr int green_reading = 0, green_place = 1, green_name = 2, green_stimp = 3;

}  // namespace dewtrail
