#include "viewer/terminal/pocket/page_server.hpp"

#include <boost/asio/ip/tcp.hpp>
#include <catch2/catch.hpp>
#include <csignal>
#include <iterator>
#include <thread>

#include "greens/input_error.hpp"
#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/files/whole_file.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

namespace {

/// All that comes back for what is sent, until the other end has closed.
std::string answer_to(const std::string& url, const std::string& sent) {
    const std::size_t colon = url.rfind(':');
    boost::asio::ip::tcp::iostream stream("127.0.0.1",
                                          url.substr(colon + 1, url.size() - colon - 2));
    stream << sent << std::flush;
    return {std::istreambuf_iterator<char>(stream), {}};
}

std::string asking(const std::string& how, const std::string& what) {
    return how + " " + what + " HTTP/1.1\r\nHost: here\r\nConnection: close\r\n\r\n";
}

/// One while it lasts, running beside the test.
struct Served {
    PageServer server{"<!doctype html>a page", "127.0.0.1", 0};
    std::thread running{[this] { server.run(); }};

    Served() { answer_to(server.url(), asking("GET", "/")); }  // then it can be told to end
    ~Served() {
        std::raise(SIGTERM);
        running.join();
    }
};

/// Whether a place of a code is dark, read back from its lines; columns count characters.
bool is_dark(const std::vector<std::string>& lines, int column, int row) {
    std::vector<std::string> places;
    for (const char c : lines.at(static_cast<std::size_t>(row / 2)))
        if ((c & 0xc0) == 0x80)
            places.back() += c;
        else
            places.emplace_back(1, c);
    const std::string& place = places.at(static_cast<std::size_t>(column));
    return place == " " || place == (row % 2 == 0 ? "▄" : "▀");
}

/// The square at a corner by which a reader finds the code: 7 by 7, a ring and a middle of 3 by 3.
bool finder_at(const std::vector<std::string>& lines, int column, int row) {
    for (int y = 0; y < 7; ++y)
        for (int x = 0; x < 7; ++x) {
            const int ring = std::max(std::abs(x - 3), std::abs(y - 3));
            if (is_dark(lines, column + x, row + y) != (ring != 2)) return false;
        }
    return true;
}

}  // namespace

TEST_CASE("a browser is given the page, and nothing else", "[page_server]") {
    const Served served;
    const std::string url = served.server.url();
    CHECK(served.server.only_here());
    const std::string page = answer_to(url, asking("GET", "/"));
    CHECK_THAT(page, Contains("HTTP/1.1 200 OK") && Contains("text/html; charset=utf-8") &&
                         Contains("nosniff"));
    CHECK(page.ends_with("\r\n\r\n<!doctype html>a page"));
    CHECK(answer_to(url, asking("HEAD", "/")).ends_with("\r\n\r\n"));
    for (const char* other : {"/x", "/../etc/passwd", "//", "/?a=b"}) {
        const std::string refused = answer_to(url, asking("GET", other));
        CHECK_THAT(refused, Contains("404 Not Found") && !Contains("a page"));
    }
    CHECK_THAT(answer_to(url, asking("DELETE", "/")), Contains("405") && !Contains("a page"));
    // What is no request, or has too much with it, is given no answer but that it does not belong.
    for (const std::string& odd :
         {std::string("hello\r\n\r\n"), "GET / HTTP/1.1\r\nA: " + std::string(20000, 'a'),
          std::string("POST / HTTP/1.1\r\nContent-Length: 5\r\n\r\nabcde")})
        CHECK_THAT(answer_to(url, odd), !Contains("a page"));
}

TEST_CASE("a browser that says nothing does not keep others waiting", "[page_server]") {
    const Served served;
    const std::string url = served.server.url();
    const std::size_t colon = url.rfind(':');
    boost::asio::ip::tcp::iostream silent("127.0.0.1",
                                          url.substr(colon + 1, url.size() - colon - 2));
    silent << "GET / HT" << std::flush;
    CHECK_THAT(answer_to(url, asking("GET", "/")), Contains("a page"));
}

TEST_CASE("an address that is none, or that cannot be had, is told", "[page_server]") {
    CHECK_THROWS_AS(PageServer("", "localhost.", 0), InputError);
    CHECK_THROWS_AS(PageServer("", "300.1.1.1", 0), InputError);
    const PageServer first("", "127.0.0.1", 0);
    const std::string url = first.url();
    const int port = std::stoi(url.substr(url.rfind(':') + 1));
    CHECK_THROWS_AS(PageServer("", "127.0.0.1", port), OutsideError);
    const PageServer everywhere("", "0.0.0.0", 0);
    CHECK_FALSE(everywhere.only_here());
    CHECK_THAT(everywhere.url(), !Contains("0.0.0.0"));
}

// ISO/IEC 18004, from memory: squares that find it in three corners, four places of margin.
TEST_CASE("the code of an address is one that a reader finds", "[page_server]") {
    const auto lines = qr_code("http://192.168.1.20:8417/");
    const int width = 25 + 8;  // version 2 holds 26 bytes at this level
    REQUIRE(lines.size() == (width + 1) / 2);
    CHECK(finder_at(lines, 4, 4));
    CHECK(finder_at(lines, width - 11, 4));
    CHECK(finder_at(lines, 4, width - 11));
    CHECK_FALSE(finder_at(lines, width - 11, width - 11));
    for (int i = 0; i < width; ++i)
        for (int edge = 0; edge < 4; ++edge) {
            CHECK_FALSE(is_dark(lines, i, edge));
            CHECK_FALSE(is_dark(lines, edge, i));
            CHECK_FALSE(is_dark(lines, width - 1 - edge, i));
        }
}

TEST_CASE("pocket needs somewhere to put the page", "[page_server]") {
    const CommandLine line;
    const auto said = line.run("pocket 12ft");
    CHECK(said.exit == Exit::not_understood);
    CHECK_THAT(said.err, Contains("--out lesson.html, or --serve it"));
}
