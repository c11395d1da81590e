/// What every command prints with --json is as viewer/results.schema.json says, to the last key.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/viewer/terminal/command_line.hpp"

using namespace dewtrail;
namespace fs = std::filesystem;

namespace {

const Json& schema() {
    static const Json read =
        Json::parse(std::ifstream(fs::path(DEWTRAIL_SOURCE_DIR) / "viewer/results.schema.json"));
    return read;
}

bool is_of(const Json& value, const std::string& type) {
    if (type == "null") return value.is_null();
    if (type == "boolean") return value.is_boolean();
    if (type == "number") return value.is_number();
    if (type == "integer") return value.is_number_integer();
    if (type == "string") return value.is_string();
    return type == "array" ? value.is_array() : value.is_object();
}

/// The few words of JSON Schema (draft 2020-12) that ours uses. What is wrong, with its place;
/// nothing if all is well.
std::string complaint(const Json& rule, const Json& value, const std::string& at) {
    if (rule.contains("$ref")) {
        const std::string name = rule["$ref"];
        return complaint(schema()[Json::json_pointer(name.substr(1))], value, at);
    }
    if (rule.contains("anyOf")) {
        std::string first;
        for (const Json& one : rule["anyOf"]) {
            const std::string wrong = complaint(one, value, at);
            if (wrong.empty()) return "";
            if (first.empty()) first = wrong;
        }
        return first;
    }
    const Json types = rule["type"].is_array() ? rule["type"] : Json::array({rule["type"]});
    bool known = false;
    for (const Json& type : types) known = known || is_of(value, type);
    if (!known) return at + ": " + value.dump().substr(0, 60) + " is not " + types.dump();
    if (value.is_array())
        for (std::size_t i = 0; i < value.size(); ++i)
            if (const auto wrong = complaint(rule["items"], value[i], at + "/" + std::to_string(i));
                !wrong.empty())
                return wrong;
    if (!value.is_object()) return "";
    for (const Json& key : rule["required"])
        if (!value.contains(key)) return at + ": no key " + key.dump();
    for (const auto& [key, part] : value.items()) {
        if (!rule["properties"].contains(key)) return at + ": unknown key " + key;
        if (const auto wrong = complaint(rule["properties"][key], part, at + "/" + key);
            !wrong.empty())
            return wrong;
    }
    return "";
}

void check(const std::string& part, const Said& said) {
    INFO(said.out.substr(0, 300) << said.err);
    const Json json = said.json();
    CHECK(complaint(schema()["$defs"][json.size() == 1 && json.contains("error") ? "error" : part],
                    json, part) == "");
}

}  // namespace

TEST_CASE("Every command's JSON is as the schema says", "[json]") {
    CommandLine line;
    const std::string greens = DEWTRAIL_SOURCE_DIR "/greens/", csv = line.path("all.csv");
    for (const char* played :
         {"4ft --holed", "6ft --missed low --side rl", "8ft --missed 'low short'",
          "10ft --missed high --side lr",
          "12ft --slope 2% --clock 3 --left '2ft past 6in left' --aim '15in right' --pace 12ft"})
        check("log", line.run(std::string("log ") + played + " --json"));
    std::string answers;
    for (int i = 0; i < 10; ++i) answers += "15in right\n12ft\ny\n";
    const std::string balls = "7ft\n10in short\n9ft\n16ft\n3in long\n17ft\n6ft8in\n";
    struct Case {
        const char* part;
        std::string typed;
        std::string answers{};
    };
    const std::string putt = " 12ft --slope 2% --clock 3 ";
    for (const Case& c : std::vector<Case>{
             {"read", "read" + putt + "--path --all-lines --detail"},
             {"read", "read" + putt + "--hole-speed 0.7m/s --slope-sure 0.3% --stimp-sure 0.5ft"},
             {"read", "read" + putt +
                          "--launch-spin 0 --wind 10mph --wind-from left --grain 11ft/9ft "
                          "--grain-toward hole"},
             {"read", "read 40ft --slope 3% --clock 12 --stimp 12"},
             {"read", "read 12ft"},
             {"read", "read --green meadow --hole flag --ball left --detail"},
             {"read", "read 35ft --slope 9% --clock 12 --stimp 12"},
             {"read", "read 12ft --slope 25% --clock 3"},
             {"ring", "ring 6ft --slope 2%"},
             {"ring", "ring 10ft --green meadow --hole flag --every 120"},
             {"roll", "roll" + putt + "--path"},
             {"roll", "roll" + putt + "--angle 5.1"},
             {"roll", "roll 12ft --slope 8% --clock 12 --aim centre --level-putt 20ft"},
             {"compare", "compare" + putt + "--with 'clock 4:30' --swap --odds --detail"},
             {"compare",
              "compare" + putt + "--with 'aim apex' --with 'slope 12%, clock 12, stimp 12'"},
             {"compare --show", "compare --show uphill"},
             {"compare --show", "compare --show low --odds"},
             {"compare --show list", "compare --show list"},
             {"odds", "odds" + putt},
             {"odds --map", "odds --map --green bench --hole middle"},
             {"speed", "speed --up 8ft 8ft2in --down 12ft"},
             {"speed", "speed --timed 12ft,3.1s"},
             {"speed", "speed --same-stroke 7paces,9paces --usual 8paces,10"},
             {"green check", "green check meadow nosuch " + greens + "bench.toml"},
             {"green show", "green show meadow --contours"},
             {"green show", "green show bench --svg " + line.path("b.svg")},
             {"green fit", "green fit --levels " + greens +
                               "meadow-levels.csv --hole front=12,5.5 --ball left=4,4 --detail"},
             {"player show", "player show"},
             {"player set", "player set --handicap 18 --stroke 20cm,3m 30cm,5m"},
             {"player fit", "player fit --from-log"},
             {"sheet", "sheet survey --out " + line.path("s.svg")},
             {"practise", "practise --putts 7 --seed 7", answers},
             {"practise", "practise --putts 2 --drill line --seed 3",
              "15in right\ny\n15in left\ny\n"},
             {"practise", "practise --day", answers},
             {"practise --drill slope", "practise --drill slope --putts 2", "2%\n95\n1%\n10\n"},
             {"practise --progress", "practise --progress"},
             {"practise --export", "practise --export " + csv},
             {"practise --import", "practise --import " + csv},
             {"log --round", "log --round", "12ft\nrl\nup\nlow\n"},
             {"log list", "log list"},
             {"log list", "log export"},
             {"log export", "log export " + csv},
             {"log import", "log import " + csv},
             {"review", "review" + putt + "--left '2ft past 6in left'"},
             {"review", "review --last 5"},
             {"rehearse", "rehearse" + putt + "--mat-stimp 12 --mat 9ft"},
             {"rehearse --swell", "rehearse --swell " + line.path("t.wav")},
             {"measure", "measure show"},
             {"measure", "measure pace --seed 3", balls},
             {"measure", "measure line", "t\nl\nr\nt\nt\nr\nt\n"},
             {"measure take", "measure take"},
             {"measure export", "measure export " + line.path("m.csv")},
             {"measure import", "measure import " + line.path("m.csv")},
             {"lesson", "lesson"},
             {"lesson", "lesson --theme halves --out " + line.path("lesson.toml")},
             {"lesson", "lesson " + line.path("lesson.toml") + " --print " + line.path("l.pdf")},
             {"lesson --theme list", "lesson --theme list"},
             {"sheet", "sheet today meadow --out " + line.path("t.svg")},
             {"pupil add", "pupil add Anna"},
             {"pupil list", "pupil list"},
             {"pupil export", "pupil export Anna " + line.path("anna.json")},
             {"pupil import", "pupil import " + line.path("anna.json") + " --as Ann"},
             {"pupil rename", "pupil rename Ann Ben"},
         }) {
        INFO(c.typed);
        check(c.part, line.run(c.typed + " --json", c.answers));
    }
}

TEST_CASE("The schema says the unit or the meaning of every figure", "[json]") {
    const std::function<void(const Json&, const std::string&)> look = [&](const Json& rule,
                                                                          const std::string& at) {
        if (rule.contains("items")) look(rule["items"], at);
        if (!rule.contains("properties")) return;
        for (const auto& [key, part] : rule["properties"].items()) {
            INFO(at << "/" << key);
            const bool figure =
                part.contains("type") && part["type"].dump().find("number") != std::string::npos;
            if (figure) CHECK_FALSE(part.value("description", "").empty());
            look(part, at + "/" + key);
        }
    };
    for (const auto& [name, part] : schema()["$defs"].items()) look(part, name);
}
