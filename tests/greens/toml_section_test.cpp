#include "greens/toml_section.hpp"

#include <catch2/catch.hpp>

#include "greens/input_error.hpp"

namespace dewtrail {
namespace {

std::string complaint(const std::string& text) {
    try {
        TomlSection::parse("t.toml", "the file", text);
    } catch (const InputError& error) {
        return error.what();
    }
    return "none";
}

/// 'a.a.a…': as many parts as overflow the stack of who takes them one inside the other.
std::string deep_key() {
    std::string key = "a";
    for (int i = 0; i < 600'000; ++i) key += ".a";
    return key;
}

TEST_CASE("a key of very many parts is refused before it is parsed", "[toml_section]") {
    const std::string key = deep_key();
    const std::vector<std::string> texts{
        key + " = 1\n",
        "x = 1\n[" + key + "]\n",
        "x = 1\n[[" + key + "]]\n",
        "x = {" + key + " = 1}\n",
        "# it's a remark\n" + key + " = 1\n",
        // What stands in quotes hides nothing behind it.
        "x = [\"\"\"a\"b\"\"\", {" + key + " = 1}]\n",
        "x = '''it's\n#'''''\n[" + key + "]\n",
        "x = \"\\\\\"\n" + key + " = 1\n",
        "x = \"never closed\n" + key + " = 1\n",
    };
    for (const std::string& text : texts) {
        CAPTURE(text.substr(0, 40));
        const std::string said = complaint(text);
        CHECK_THAT(said, Catch::StartsWith("t.toml:") && (Catch::Contains("more than 32 parts")));
    }
    CHECK_THAT(complaint("x = 1\ny = 2\n" + key + " = 1\n"), Catch::StartsWith("t.toml:3:64: "));
}

TEST_CASE("values inside one another are refused where they are too deep", "[toml_section]") {
    std::string arrays = "x = ", tables = "x = ";
    for (int i = 0; i < 200'000; ++i) arrays += '[', tables += "{a=";
    CHECK_THAT(complaint(arrays), Catch::StartsWith("t.toml:1:"));
    CHECK_THAT(complaint(tables), Catch::StartsWith("t.toml:1:"));
}

TEST_CASE("points in texts, remarks and numbers are no parts of a key", "[toml_section]") {
    const std::string dots(200, '.');
    for (const std::string& text :
         {"# " + dots + "\nx = 1\n", "x = \"" + dots + "\"\n", "x = '" + dots + "'\n",
          "x = \"\"\"\n" + dots + "\n" + dots + "\"\"\"\n", "x = [1.5, 2.5, 3.5] # " + dots + "\n",
          std::string("[a.b.c]\nd.e.f = 1.5\n")}) {
        CAPTURE(text);
        CHECK(complaint(text) == "none");
    }
    std::string many = "x = [";
    for (int i = 0; i < 100; ++i) many += "[1.25, 2.75],\n";
    CHECK(complaint(many + "]\n") == "none");
}

}  // namespace
}  // namespace dewtrail
