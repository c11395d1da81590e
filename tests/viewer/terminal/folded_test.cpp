#include "viewer/terminal/folded.hpp"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <sstream>

namespace dewtrail {
namespace {

std::string folded(const std::string& text, int columns) {
    std::ostringstream out;
    {
        const Folded fold(out, columns);
        out << text;
    }
    return out.str();
}

TEST_CASE("a line is folded between words, the rest a little further in", "[folded]") {
    CHECK(folded("three cups out right\n", 20) == "three cups out right\n");
    CHECK(folded("three cups out right\n", 19) == "three cups out\n  right\n");
    CHECK(folded("  play it as a straight one\n", 12) ==
          "  play it as\n    a\n    straight\n    one\n");
    CHECK(folded("Aim      three cups\n", 40) == "Aim      three cups\n");
    CHECK(folded("Aim      three cups\n", 16) == "Aim      three\n  cups\n");
}

TEST_CASE("a character counts once, however many bytes it has", "[folded]") {
    CHECK(folded("1¾ in · 2½ %\n", 12) == "1¾ in · 2½ %\n");
    CHECK(folded("1¾ in · 2½ %\n", 11) == "1¾ in ·\n  2½ %\n");
}

TEST_CASE("a number keeps its unit, and no more than a unit", "[folded]") {
    CHECK(folded("aim 19 in\n", 8) == "aim\n  19 in\n");
    CHECK(folded("at 3 paces\n", 7) == "at 3\n  paces\n");
    CHECK(folded("12 \n", 20) == "12\n");
    CHECK(folded("2  3  4\n", 20) == "2  3  4\n");
}

TEST_CASE("what cannot be folded goes through", "[folded]") {
    CHECK(folded("/a/very/long/path/indeed\nno\n", 10) == "/a/very/long/path/indeed\nno\n");
    CHECK(folded("\rsome 10 %\rsome 20 %", 10) == "\rsome 10 %\rsome 20 %");
    CHECK(folded("\n\n a\n", 3) == "\n\n a\n");
    CHECK(folded("end without a line feed", 80) == "end without a line feed");
}

TEST_CASE("control characters do not reach the terminal", "[folded]") {
    CHECK(folded("a\x1b[31mb\x7f\tc\u009b31m ½\n", 80) == "a?[31mb??c?31m ½\n");
}

TEST_CASE("what is flushed is seen at once, a question with its blank", "[folded]") {
    std::ostringstream out;
    const Folded fold(out, 30);
    out << "Your aim? " << std::flush;
    CHECK(out.str() == "Your aim? ");
    out << "Your pace, as a level putt? " << std::flush;  // the answer ended the line
    CHECK(out.str() == "Your aim? Your pace, as a level putt? ");
}

TEST_CASE("a stream that is flushed after every piece is folded all the same", "[folded]") {
    std::ostringstream out;
    out << std::unitbuf;
    const Folded fold(out, 12);
    for (const char* piece : {"not ", "understood: ", "12", "fx", "\n"}) out << piece;
    CHECK(out.str() == "not\n  understood:\n  12fx\n");
}

TEST_CASE("what machines read goes through whole, in its place", "[folded]") {
    std::ostringstream out;
    {
        const Folded fold(out, 10);
        out << "before this line\n";
        {
            const Unfolded whole(out);
            out << "{ \"a\": \"long text in quotes\" }\n";
        }
        out << "after all of that\n";
    }
    CHECK(out.str() ==
          "before\n  this\n  line\n{ \"a\": \"long text in quotes\" }\nafter all\n  of that\n");
    const Unfolded harmless(out);
    out << "x";
    CHECK(out.str().back() == 'x');
}

TEST_CASE("what is no terminal has no columns", "[folded]") {
    int ends[2];
    REQUIRE(pipe(ends) == 0);
    CHECK_FALSE(terminal_columns(ends[1]));
    CHECK_FALSE(terminal_columns(-1));
    close(ends[0]);
    close(ends[1]);
}

}  // namespace
}  // namespace dewtrail
