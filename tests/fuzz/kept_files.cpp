/// The files that the program keeps for itself, in case someone else has written them: the player,
/// the putt and the survey that the window was left with, CSV to import, a lesson, a set of putts.

#include "fuzz/fuzzing.hpp"
#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "viewer/practice/coach/lesson_file.hpp"
#include "viewer/practice/drill/putt_set.hpp"
#include "viewer/practice/log/logged_putt.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/memory_csv.hpp"
#include "viewer/practice/player.hpp"
#include "viewer/putt/kept_putt.hpp"
#include "viewer/survey/kept_green.hpp"

using namespace dewtrail;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size < 1 || size > 50'000) return 0;
    const std::string_view text = fuzz::text_of(data + 1, size - 1);
    try {
        switch (data[0] & 7) {
            case 0: {
                const Player player = load_player(fuzz::file("p.toml", text));
                fuzz::require(player.pace_m >= 0.3 && player.pace_m <= 1.5,
                              "a pace is in its range");
                break;
            }
            case 1:
                kept_putt(fuzz::file("k.toml", text), [](const std::string& name) {
                    return std::make_shared<const Green>(load_green(name, {}));
                });
                break;
            case 2:
                if (const auto draft = kept_green(fuzz::file("s.toml", text))) {
                    fuzz::require(draft->holes.count(draft->hole) == 1, "a survey has its hole");
                    keep_green(fuzz::folder() / "again.toml", draft);
                    const auto again = kept_green(fuzz::folder() / "again.toml");
                    fuzz::require(again && again->spots.size() == draft->spots.size(),
                                  "a survey that was kept is found again");
                }
                break;
            case 3: {
                const auto answers = read_answers_csv("a.csv", text);
                const auto again = read_answers_csv("b.csv", write_answers_csv(answers));
                fuzz::require(again.size() == answers.size(), "answers read back");
                break;
            }
            case 4: {
                const TaughtLesson lesson = read_lesson("l.toml", text);
                const TaughtLesson again = read_lesson("again.toml", lesson_text(lesson));
                fuzz::require(again.homework.size() == lesson.homework.size(),
                              "a lesson reads back");
                break;
            }
            case 5: {
                const auto set = load_putt_set(fuzz::file("set.toml", text));
                save_putt_set(fuzz::folder() / "again.toml", set);
                fuzz::require(load_putt_set(fuzz::folder() / "again.toml").size() == set.size(),
                              "a set of putts reads back");
                break;
            }
            default:
                read_putts_csv("l.csv", text, Units{});
        }
    } catch (const InputError&) {
    }
    return 0;
}
