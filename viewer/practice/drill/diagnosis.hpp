#pragma once

#include <memory>
#include <optional>
#include <string_view>

#include "physics/read/read.hpp"
#include "viewer/practice/drill/answer.hpp"
#include "viewer/putt/spread.hpp"

/// What one answer cost, and which part of it did.
namespace dewtrail {

/// The part of an answer that cost more.
enum class Fault { none, aim, pace };
/// 'none', 'aim', 'pace'.
std::string_view name_of(Fault fault);

/// Under this much break its played part is not told: an inch of aim would be most of it.
inline constexpr double least_break_m = metres_per_inch;
/// Under this many strokes nothing is blamed.
inline constexpr double costs_nothing = 0.01;

/// One answer beside the truth. Headline, table, sentence, score and JSON are all printed from
/// this, so that they name the same fault (words in practice_words.hpp).
///
/// Strokes are expected putts with this player's line and pace spread; no slope read, for the
/// answer is the read. What a part cost is what replacing only that part by the truth saves: the
/// mean of what it saves with the other part as answered and with the other part true (Shapley, A
/// value for n-person games, 1953). Which of the two parts costs more is the same either way; the
/// mean adds up to what the whole answer lost, and a part that is true costs nothing.
struct Diagnosis {
    Drill drill = Drill::read;
    Read best;                           ///< the truth, with the putt's own finish
    Read played;                         ///< what the answer does, the hole open; path kept
    double aim_m = 0, level_putt_m = 0;  ///< as answered
    double lost = 0;                     ///< strokes beyond the read's, never under 0
    double aim_lost = 0, pace_lost = 0;  ///< add up to `lost`
    Fault fault = Fault::none;           ///< the larger; none under costs_nothing
    double score = 0;                    ///< score_of(lost)
    std::optional<double> break_share;   ///< the aim's part of the break; none under least_break_m
    bool wrong_side = false;             ///< of the hole
    double pace_share = 1;               ///< level roll over the read's
    std::string_view side;               ///< on which the aim was off: low, high, left, right
    bool holed = false;                  ///< a ball struck exactly so
    bool passed_there = false;           ///< and if not, it missed on that side
    double past_m = 0, away_m = 0;       ///< where it stopped: beyond the hole, from the hole
};

/// 0 to 10 in whole points: halved by every 0.15 strokes lost (no source: what simulated readers
/// lose on average). Never rises with what was lost.
double score_of(double lost);

/// An aim by an inch or more on the other side of the hole than that of a putt that breaks.
bool is_wrong_side(double aim_m, double true_aim_m);

/// Diagnoses answers to one putt. Making it takes some tenths of a second, most of it for what
/// follows a miss.
class Examiner {
  public:
    /// None where the putt has no read with an aim, or no odds.
    static std::optional<Examiner> make(const Putt& putt, const Spread& spread,
                                        double player_past_m);
    Examiner(Examiner&&) noexcept;
    Examiner& operator=(Examiner&&) noexcept;
    ~Examiner();

    const Read& best() const;
    /// What the drill gives is taken from the read. None where the stroke has no odds.
    std::optional<Diagnosis> diagnose(Drill drill, double aim_m, double level_putt_m) const;

  private:
    struct Known;
    explicit Examiner(std::unique_ptr<Known> known);
    std::unique_ptr<Known> known_;
};

/// The same for a single answer.
std::optional<Diagnosis> diagnose(const Putt& putt, Drill drill, double aim_m, double level_putt_m,
                                  const Spread& spread, double player_past_m);

}  // namespace dewtrail
