#include "viewer/modes/green/green_mode.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "greens/contours.hpp"
#include "greens/input_error.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr std::size_t most_for_mist = 1500;  // coefficients; beyond, heights cover the ground
constexpr double empty_reach_m = 5;

std::string tenths(double share) {
    return fmt::format("{:.1f} %", 100 * share);
}

/// Finer than a level reads: several of them tell more than one.
std::string hundredths(double share) {
    return fmt::format("{:.2f} %", 100 * share);
}

}  // namespace

GreenMode::GreenMode(Shell& shell, GreenStart start) : Mode(shell), start_(std::move(start)) {
    if (start_.draft) draft_ = *start_.draft;
    work_out();
}

Layout GreenMode::lay_out() const {
    Layout l = dewtrail::lay_out(shell_.appearance(), true);
    // Nothing rolls and no putt is set up here: the green takes their strips.
    const double bottom = l.portrait ? l.roll_strip.bottom() : l.setup_strip.bottom();
    l.green.h = bottom - l.green.y;
    if (l.portrait) l.note = {0, bottom, l.width, l.foot.y - bottom};
    l.roll_strip = l.setup_strip = {l.green.x, bottom, l.green.w, 0};
    return l;
}

/// The putt's green is opened unless that would lose a survey; its ball and hole come along.
void GreenMode::arrived(const std::optional<Setup>& putt) {
    fit_camera();
    if (!putt || !putt->green || putt->green == green_) return;
    if (unsaved() && !draft_.spots.empty())
        return shell_.say(fmt::format("{} is not saved yet. Ctrl S saves it, Ctrl O opens another.",
                                      draft_.name));
    auto draft = draft_of(*putt->green);
    if (!draft) return shell_.say(putt->green->name + " was made up, not surveyed.");
    draft->ball = putt->ball;
    for (const auto& [name, at] : draft->holes)
        if (at == putt->hole) draft->hole = name;
    if (draft->hole_at() != putt->hole) {
        draft->holes["here"] = putt->hole;
        draft->hole = "here";
    }
    open_draft(*draft, "open-green", &*putt->green->fit);
}

std::optional<Setup> GreenMode::putt_at_hand() const {
    if (!green_) return std::nullopt;
    Setup setup;
    put_on_green(setup, green_);
    setup.stimp_ft = draft_.stimp_ft;
    place_hole(setup, draft_.hole_at());
    setup.hole_name = draft_.hole;
    if (draft_.ball) place_ball(setup, *draft_.ball);
    return setup;
}

/// What is dragged is fitted anew when it is let go.
void GreenMode::change(const std::function<void(GreenDraft&)>& edit, const std::string& name) {
    GreenDraft draft = draft_;
    edit(draft);
    if (draft == draft_) return;
    shell_.remember();
    draft_ = std::move(draft);
    replace_ = false;
    if (!shell_.dragging()) dropped();
    if (const Spot* spot = chosen_spot(); spot && !shell_.dragging() && !in_sight(*spot))
        fit_camera();
    shell_.act(name);
}

void GreenMode::put_back(const std::any& draft) {
    draft_ = std::any_cast<const GreenDraft&>(draft);
    dropped();
}

void GreenMode::dropped() {
    work_out();
    keep();
}

/// `known`: the fit of a green that was opened, good for as long as its outline is.
void GreenMode::work_out(const SurfaceFit* known) {
    ++fits_;
    if (known || !fitted_to_ || !same_survey(*fitted_to_, draft_)) {
        fit_ = known && outline_of(draft_) == draft_.corners ? *known : fit_draft(draft_);
        mist_ = {};
    }
    fitted_to_ = draft_;
    green_.reset();
    doubtful_.assign(draft_.spots.size(), false);
    worst_.reset();
    next_.reset();
    spot_ = std::min(spot_, draft_.spots.empty() ? 0 : draft_.spots.size() - 1);
    if (thing_ == Thing::spot && draft_.spots.empty()) thing_ = Thing::none;
    if (thing_ == Thing::ball && !draft_.ball) thing_ = Thing::none;
    if (!fitted()) return;
    green_ = green_of(draft_, fit_);
    look_for_doubts();
    if (mist_.slope_sd.empty()) look_for_mist();
    if (!draft_.ball || (*draft_.ball - draft_.hole_at()).norm() < hole_radius_m) return;
    line_doubt_ = line_doubt(fit_, *draft_.ball, draft_.hole_at());
    next_ = next_spot(fit_, *draft_.ball, draft_.hole_at(), &green_->outline,
                      draft_.level_sd.value_or(default_level_sd));
}

/// Which spots to read again. The survey holds those that are read, in their order.
void GreenMode::look_for_doubts() {
    std::vector<std::size_t> spot_of_level;
    for (std::size_t i = 0; i < draft_.spots.size(); ++i)
        if (draft_.spots[i].gradient) spot_of_level.push_back(i);
    for (const Disagreement& d : disagreements(*green_->survey, fit_)) {
        if (!d.is_level || !d.doubtful) continue;
        const std::size_t spot = spot_of_level[d.index];
        doubtful_[spot] = true;
        if (!worst_) worst_ = spot, worst_off_ = d.off;
    }
}

/// How well the slope is known, on a lattice over the green.
void GreenMode::look_for_mist() {
    if (fit_.surface->coefficients().size() > most_for_mist) return;
    const Box box = box_round(green_->outline.corners());
    mist_.least = box.least;
    mist_.step = box.size().cwiseQuotient(Vec2(Mist::columns - 1, Mist::rows - 1));
    std::vector<Vec2> places;
    for (int j = 0; j < Mist::rows; ++j)
        for (int i = 0; i < Mist::columns; ++i)
            places.push_back(mist_.least + mist_.step.cwiseProduct(Vec2(i, j)));
    mist_.slope_sd = largest_slope_sds(fit_, places);
}

void GreenMode::keep() {
    if (start_.keep) start_.keep(unsaved() ? std::optional(draft_) : std::nullopt);
}

/// Another green altogether; undo brings the one before back.
void GreenMode::open_draft(GreenDraft draft, const std::string& name, const SurfaceFit* known) {
    shell_.remember();
    draft_ = saved_ = std::move(draft);
    thing_ = Thing::none;
    first_row_ = 0;
    work_out(known);
    fit_camera();
    keep();
    shell_.act(name);
}

void GreenMode::open_green(const std::string& name) {
    try {
        const auto green = start_.load(name);
        if (const auto draft = draft_of(*green))
            return open_draft(*draft, "open-green", &*green->fit);
        shell_.complain(name + " was made up, not surveyed.");
    } catch (const InputError& error) {
        shell_.complain("That green could not be read: " + std::string(error.what()));
    }
}

void GreenMode::save() {
    if (!fitted())
        return shell_.complain("Three spots that are read make a green that can be saved.");
    if (!start_.save) return;
    try {
        const SavedGreen saved = start_.save(draft_, replace_);
        shell_.say(saved.words);
        replace_ = !saved.done;
        if (saved.done) saved_ = draft_;
        keep();
        shell_.act(saved.done ? "saved" : "message");
    } catch (const std::runtime_error& error) {
        shell_.complain("The green was not saved: " + std::string(error.what()));
    }
}

/// On to Read, with the ball where it lies or about twelve feet from the hole.
void GreenMode::use() {
    if (!fitted()) return shell_.complain(heading());
    const auto ground = look_at_ground(*fit_.surface, green_->outline);
    if (ground.steepest > most_slope)
        return shell_.complain(
            fmt::format("The surface falls {:.0f} % somewhere: one reading must be wrong.",
                        100 * ground.steepest));
    shell_.change_mode(ModeName::read);
    shell_.act("use");
}

void GreenMode::fit_camera() {
    std::vector<Vec2> points;
    if (draft_.spots.empty() && !draft_.heights)
        for (const Vec2& way : {Vec2(1, 1), Vec2(-1, -1)})
            points.push_back(draft_.hole_at() + empty_reach_m * way);
    else
        points = outline_of(draft_);
    if (draft_.ball) points.push_back(*draft_.ball);
    if (next_) points.push_back(next_->at);
    camera_ = fit_plan(points, shell_.layout().green, shell_.layout().scale);
}

bool GreenMode::in_sight(const Spot& spot) const {
    return shell_.layout().green.contains(camera_.to_px(spot.at));
}

const Spot* GreenMode::chosen_spot() const {
    return thing_ == Thing::spot && spot_ < draft_.spots.size() ? &draft_.spots[spot_] : nullptr;
}

std::string GreenMode::heading() const {
    if (!fitted()) {
        const auto read = static_cast<int>(survey_of(draft_).levels.size());
        if (draft_.spots.empty())
            return "Put the level down and enter what it reads. Three spots make a slope.";
        if (read < 3)
            return fmt::format("{} more {} a slope", 3 - read,
                               read == 2 ? "spot makes" : "spots make");
        return spoken(fit_.message);
    }
    const std::size_t heights = draft_.heights ? draft_.heights->size() : 0;
    const std::size_t spots = green_->survey->levels.size();
    if (spots == 0)
        return fmt::format("{} heights, fitted within {:.0f} mm", heights,
                           1000 * fit_.height_rms_m);
    if (heights > 0)
        return fmt::format("{} spots and {} heights, fitted within {}", spots, heights,
                           tenths(fit_.level_rms));
    return fmt::format("{} spots, fitted within {}", spots, tenths(fit_.level_rms));
}

/// The reading that disagrees most, and what is not known of the putt that matters.
std::vector<std::string> GreenMode::sentences() const {
    std::vector<std::string> words;
    if (!fitted()) return words;
    if (worst_)
        words.push_back(fmt::format("Spot {} disagrees by {}. Read it again.", *worst_ + 1,
                                    tenths(worst_off_)));
    if (!draft_.ball) {
        words.push_back("B puts a ball down: then the green says where to read next.");
        return words;
    }
    words.push_back(fmt::format("This putt's slope is known to {} along, {} across.",
                                hundredths(line_doubt_.along), hundredths(line_doubt_.across)));
    if (next_)
        words.push_back(fmt::format("A level laid at the ring makes that {} and {}.",
                                    hundredths(next_->after.along),
                                    hundredths(next_->after.across)));
    return words;
}

std::string GreenMode::as_text() const {
    std::string text = draft_.name + ". " + heading() + ".";
    for (const std::string& sentence : sentences()) text += " " + sentence;
    for (std::size_t i = 0; i < draft_.spots.size(); ++i)
        if (const Spot& spot = draft_.spots[i]; spot.gradient)
            text += fmt::format("\n{}: {} at {}", i + 1, spot_reading_text(*spot.gradient),
                                spot_place_text(spot.at, draft_.hole_at(), shell_.units()));
    return text;
}

Pages GreenMode::pages() const {
    Pages pages;
    if (fitted()) pages.emplace_back("This green", "green");
    pages.emplace_back("Blank form for a survey", "survey");
    return pages;
}

State GreenMode::state() const {
    State state = {{"name", draft_.name},
                   {"spots", static_cast<double>(draft_.spots.size())},
                   {"fitted", fitted()},
                   {"unsaved", unsaved()},
                   {"has_ball", draft_.ball.has_value()},
                   {"hole_x_m", draft_.hole_at().x()},
                   {"hole_y_m", draft_.hole_at().y()}};
    if (fitted()) state.emplace_back("level_rms", fit_.level_rms);
    if (const Spot* spot = chosen_spot()) {
        state.emplace_back("spot", static_cast<double>(spot_ + 1));
        state.emplace_back("x_m", spot->at.x());
        state.emplace_back("y_m", spot->at.y());
        if (spot->gradient) state.emplace_back("slope", spot->gradient->norm());
    }
    if (next_) {
        state.emplace_back("along_sd", line_doubt_.along);
        state.emplace_back("across_sd", line_doubt_.across);
    }
    return state;
}

}  // namespace dewtrail
