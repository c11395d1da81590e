#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <ostream>

#include "viewer/practice/drill/slope_drill.hpp"
#include "viewer/practice/habits/bias.hpp"
#include "viewer/terminal/practise/asking.hpp"
#include "viewer/terminal/practise/practise.hpp"

namespace dewtrail {
namespace {

/// False at the end of the answers.
bool ask(Asking& asking, SlopeSpot& spot) {
    while (const auto index = spot.next()) {
        const std::string prompt =
            fmt::format("{} ({}):", SlopeSpot::label(*index), SlopeSpot::example(*index));
        const auto typed = asking.until(prompt.c_str(), [&](const std::string& text) {
            spot.set(*index, text);
            return true;
        });
        if (!typed) return false;
    }
    return true;
}

Json json_of(const Answer& answer) {
    return {{"id", answer.id},
            {"slope_said", number(answer.slope_said)},
            {"falls_said_deg", number(answer.falls_said_deg)},
            {"slope_shown", number(answer.slope_shown)},
            {"falls_shown_deg", number(answer.falls_shown_deg)}};
}

void print_habit(Session& session, const Memory& memory) {
    if (const auto habit = slope_habit(memory.answers()))
        session.out() << fmt::format(
            "Over {} spots you feel {:.1f} % where it is {:.1f} %; the fall is {:.0f}° off.\n",
            habit->answers, 100 * habit->felt, 100 * habit->shown, habit->fall_off_deg);
    else
        session.out() << "The trend starts after six spots.\n";
}

}  // namespace

Exit run_slope_drill(Session& session, Memory& memory, int rounds) {
    Asking asking(session);
    Json list = Json::array();
    if (!session.json()) session.out() << slope_drill_words << "\n\n";
    for (int i = 0; i < rounds; ++i) {
        SlopeSpot spot;
        if (!session.json()) session.out() << fmt::format("Spot {} of {}\n", i + 1, rounds);
        if (!ask(asking, spot)) break;
        Answer answer = spot.answer();
        answer.id = memory.remember(answer);
        list.push_back(json_of(answer));
        if (!session.json()) session.out() << slope_result_words(answer) << '\n' << std::endl;
    }
    if (session.json())
        session.print({{"drill", "slope"}, {"spots", list}});
    else
        print_habit(session, memory);
    return Exit::done;
}

}  // namespace dewtrail
