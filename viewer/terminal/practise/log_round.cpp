#include "viewer/terminal/practise/log_round.hpp"

#include <nlohmann/json.hpp>

#include "viewer/files/dates.hpp"
#include "viewer/terminal/practise/asking.hpp"
#include "viewer/terminal/practise/practise.hpp"

namespace dewtrail {
namespace {

constexpr int putts_from_memory = 5;

using Cells = std::vector<std::pair<std::string, std::string>>;

struct RoundQuestion {
    const char* column;
    const char* words;
};
constexpr RoundQuestion questions[] = {{"distance", "How long (12ft):"},
                                       {"side", "It broke (rl, lr, both or straight):"},
                                       {"grade", "Up, level or down:"},
                                       {"missed", "Holed, or missed low, high, short, long:"}};

Cells cells_of(const std::string& column, const std::string& text) {
    if (column != "missed") return {{column, text}};
    if (text == "holed") return {{"result", "holed"}};
    return {{"result", "missed"}, {column, text}};
}

/// Accepts one answer if it makes sense on its own.
Cells checked(const std::string& column, const std::string& text, const Units& units) {
    Cells alone = cells_of(column, text);
    if (column != "distance") alone.push_back({"distance", "12ft"});
    parse_putt(alone, units);
    return cells_of(column, text);
}

/// False at the end of the answers.
bool ask(Asking& asking, Cells& cells, const Units& units) {
    for (const RoundQuestion& question : questions) {
        const auto answer = asking.until(question.words, [&](const std::string& text) {
            return checked(question.column, text, units);
        });
        if (!answer) return false;
        cells.insert(cells.end(), answer->begin(), answer->end());
    }
    return true;
}

}  // namespace

Exit run_log_round(Session& session) {
    const Units units = session.units();
    Memory memory = memory_of(session);
    Asking asking(session);
    Json ids = Json::array();
    for (int i = 0; i < putts_from_memory; ++i) {
        if (!session.json())
            session.out() << fmt::format("Putt {} of {}\n", i + 1, putts_from_memory);
        Cells cells{{"date", today()}};
        if (!ask(asking, cells, units)) break;
        const std::int64_t id = memory.remember(parse_putt(cells, units));
        ids.push_back(id);
        if (!session.json())
            session.out() << fmt::format("Remembered as putt {}.\n", id) << std::endl;
    }
    if (session.json())
        session.print({{"remembered", ids}});
    else
        session.out() << "Next: dewtrail log list\n";
    return Exit::done;
}

}  // namespace dewtrail
