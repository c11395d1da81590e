#include <fmt/format.h>

#include "viewer/modes/read/read_mode.hpp"
#include "viewer/modes/read/room_panel.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

/// Screen Read, as far as it is about odds: asking for them, the view Room, the best choice, the
/// player's spread.
namespace dewtrail {
namespace {

/// What a best choice gains on the plain read, or costs: 'best choice: saves one stroke in 83 such
/// putts', 'most holed, 15 % for 14 %: costs one stroke in 11 such putts'.
std::string taken_words(BestKind kind, const PlayedChoice& taken,
                        const std::optional<PlayedChoice>& plain) {
    const bool fewest = kind == BestKind::fewest_putts;
    std::string words = fewest ? "best choice" : "most holed";
    if (!plain) return words;
    if (!fewest)
        words += fmt::format(", {} for {}", format_percent(taken.odds.holed),
                             format_percent(plain->odds.holed));
    const double saved = plain->odds.putts - taken.odds.putts;
    const std::string strokes = strokes_words(saved);
    if (strokes == "nothing") return words + ": as many putts as the plain read";
    return fmt::format("{}: {} {}", words, saved > 0 ? "saves" : "costs", strokes);
}

}  // namespace

/// Odds of the putt as it is now, unless they are there already or on their way.
void ReadMode::ask_outlook() {
    if (!start_.outlook || !solved_.read) return odds_.forget();
    const Finish plain = setup_.taken ? setup_.taken->plain : solved_.putt.finish;
    if (odds_.ask(solved_.putt, *solved_.read, plain, setup_.spread)) wanted_.reset();
}

bool ReadMode::take_outlook() {
    if (!odds_.take()) return false;
    if (odds_.outlook().complete) shell_.act("odds");
    if (odds_.best_fresh() && wanted_) take_best(*wanted_);
    return true;
}

void ReadMode::wait_for_outlook() {
    odds_.wait();
    take_outlook();
}

OddsShown ReadMode::odds_shown() const {
    OddsShown shown = odds_.shown();
    const auto& best = odds_.outlook().best;
    if (!best) return shown;
    for (const FinishChoice& choice : solved_.choices)
        shown.choices.push_back(chance_of_finish(*best, choice.past_m));
    if (setup_.taken && shown.choices_fresh)
        shown.taken =
            taken_words(setup_.taken->kind, odds_.best_of(setup_.taken->kind), best->plain);
    return shown;
}

State ReadMode::state() const {
    const OddsShown shown = odds_.shown();
    State state{{"odds_awaited", shown.awaited}};
    if (shown.fresh) state.emplace_back("odds_putts", shown.odds->putts);
    return state;
}

/// The choice's finish and start line into the read; as soon as it is known.
void ReadMode::take_best(BestKind kind) {
    if (!solved_.read) return;
    if (!odds_.best_fresh()) {
        if (odds_.busy()) wanted_ = kind;
        return;
    }
    const PlayedChoice choice = odds_.best_of(kind);
    const Finish plain = odds_.plain_finish();
    change(
        [&](Setup& s) {
            s.finish = Finish::past(choice.past_m);
            s.taken = TakenChoice{kind, choice.aim_shift_rad, plain};
        },
        "best");
}

void ReadMode::choose_preset(int index) {
    if (index < 0 || index >= static_cast<int>(start_.presets.size())) return;
    const Spread spread = start_.presets[static_cast<std::size_t>(index)].spread;
    change([&](Setup& s) { s.spread = spread; }, "preset");
}

void ReadMode::toggle_spread() {
    spread_open_ = !spread_open_;
    if (spread_open_)
        shell_.set_focus(FocusStop::on(What::field, static_cast<int>(Field::spread_line)));
    else if (shell_.focus() && shell_.focus()->what == What::field)
        shell_.set_focus(FocusStop::on(What::spread));
    shell_.act(spread_open_ ? "spread" : "close-spread");
}

/// The player's file is to hold what the window shows.
void ReadMode::remember_spread() {
    if (setup_.spread == remembered_) return;
    remembered_ = setup_.spread;
    Wish keep{Wish::Kind::remember_spread};
    keep.spread = setup_.spread;
    shell_.wish(std::move(keep));
}

void ReadMode::spread_changed(const Spread& spread) {
    remembered_ = spread;
    change([&](Setup& s) { s.spread = spread; }, "spread");
    ease_.t = 1;
}

void ReadMode::show_room() {
    if (commit_) return;
    room_ = true;
    spread_open_ = false;
    hovered_mark_ = MarkId::none;
    if (shell_.focus() && shell_.focus()->mark != MarkId::none) shell_.set_focus(std::nullopt);
    shell_.act("room");
}

/// The view Room in place of the green and what belongs to it. Returns the height of its note.
double ReadMode::lay_out_room(const Canvas& canvas) const {
    const Look& look = canvas.look;
    Note note = note_of(setup_, solved_, shell_.units(), odds_shown());
    note.choices.clear();
    if (note.account.rows.size() > 1) note.account.rows.resize(1);  // the aim
    const RoomScene scene{solved_,        odds_.outlook(),    setup_.taken, note_state_.detail,
                          !odds_.fresh(), !odds_.best_fresh()};
    RoomPicture room;
    if (solved_.shown()) room = room_picture(scene, canvas.targets, canvas.attention, look);
    append(canvas.picture, room.picture);
    if (!note_shown_ && !look.layout.portrait) return 0;
    const double top = draw_note(canvas, note, note_state_).full_height;
    if (!solved_.shown()) return top;
    const double from = look.layout.note.y - note_state_.scrolled_px;
    const double bottom =
        draw_room_panel(canvas, room_panel(scene, room, shell_.units()),
                        {setup_, start_.presets, shell_.typed_field()}, from + top);
    return bottom - from + look.u(24);
}

}  // namespace dewtrail
