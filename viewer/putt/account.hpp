#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "greens/units.hpp"
#include "physics/odds/odds.hpp"
#include "physics/read/read.hpp"
#include "physics/read/survey_advice.hpp"
#include "viewer/putt/setup.hpp"

/// The one account of a read. The window's note, the terminal, the printed page and JSON all tell
/// these rows, each in its own form; none of them words a read or works out a figure by itself.
namespace dewtrail {

/// A number behind a row: SI, under the key that `read --json` has for it ('start.angle_deg').
struct Figure {
    std::string_view key;
    std::variant<std::optional<double>, bool, std::string, std::pair<double, double>> value;
};

inline std::optional<double> scaled(std::optional<double> value, double factor) {
    return value ? std::optional(*value * factor) : std::nullopt;
}

/// What a row is about; each has a sign of its own.
enum class Glyph { aim, stand_in, apex, finish, room, drop, odds, sure };

struct AccountRow {
    Glyph glyph = Glyph::aim;
    std::string name{};    ///< 'Stand-in hole'
    std::string words{};   ///< 'play it as a straight level 12-footer'
    std::string second{};  ///< told smaller: '15 in from the centre'
    std::string detail{};  ///< for a coach: 'leaves at 6.8 ft/s'
    std::string more{};    ///< for a coach, where there is room: 'level roll 13 ft'
    std::vector<std::pair<std::string, std::string>> table{};  ///< of 'A misread costs'
    std::vector<Figure> figures{};
};

struct Account {
    std::string heading;           ///< 'Right to left, slightly downhill'
    std::vector<AccountRow> rows;  ///< the aim first; what the read does not have has no row
    std::vector<std::string> notes;

    const AccountRow* row(Glyph glyph) const;
};

/// Odds, as far as they have been worked out.
struct OddsKnown {
    Spread spread;  ///< of whom
    std::optional<double> holed, inside_3ft, usual_leave_m, three_putt, putts;
};
OddsKnown known_odds(const Spread& spread, const StrokeOdds& odds);
OddsKnown known_odds(const Spread& spread, const Odds& odds);

/// What is known beside the read itself.
struct KnownBeside {
    std::optional<OddsKnown> odds;
    std::optional<double> slope_sure, stimp_sure_ft;  ///< half-widths that hold 19 times in 20
    std::optional<ReadDoubt> survey;
    int other_lines = 0;
};

/// With what the set-up says of slope and stimp.
KnownBeside known_of(const Setup& setup, const std::optional<OddsKnown>& odds = {});

/// `read` may be any stroke that reaches the hole.
Account account_of(const Putt& putt, const Read& read, const Units& units,
                   const KnownBeside& known = {});

/// Which way a stroke goes, or that it breaks both ways: the heading of its account.
std::string heading_of(const Putt& putt, const Read& read);

/// A row in one line, detail left out: 'three cups out right (15 in from the centre)'. A table
/// takes a line for each of its own.
std::string told(const AccountRow& row);

}  // namespace dewtrail
