#include <emscripten.h>

#include <memory>
#include <unordered_map>
#include <utility>

#include "greens/input_error.hpp"
#include "viewer/paper/paper.hpp"
#include "viewer/practice/rehearse/swell.hpp"
#include "viewer/text/glossary.hpp"
#include "viewer/web/drawing.hpp"
#include "viewer/web/page.hpp"
#include "viewer/web/raster.hpp"
#include "viewer/web/read_figures.hpp"

/// What the page's script calls, and what it is called for; the worker's too. A text that is handed
/// out stays until the next one is. What goes wrong inside is told on the screen, or handed out as
/// words.
namespace {
using namespace dewtrail;

EM_JS(double, measured_width, (int face, const char* words, int size),
      { return Module.host.width(face, UTF8ToString(words, size)); });
EM_JS(void, ask_browser, (const char* what, const char* words, double number),
      { Module.host.ask(UTF8ToString(what), UTF8ToString(words), number); });

EM_JS(int, ask_worker, (const double* numbers, std::size_t size),
      { return Module.host.askWorker(HEAPF64.slice(numbers >> 3, (numbers >> 3) + size)); });
EM_JS(void, answer_page, (const double* numbers, std::size_t size),
      { Module.host.answer(HEAPF64.slice(numbers >> 3, (numbers >> 3) + size)); });

std::unique_ptr<Page> page;
OutlookClerk clerk;
Drawing ground_drawing, picture_drawing;
std::string handed_out;
std::vector<std::int16_t> swell;
double scale = 1,
       dragging_scale = 1;  ///< of the device, and what does while the next picture follows at once

const Drawing& drawing_of(int ground) {
    return ground ? ground_drawing : picture_drawing;
}

const char* hand_out(std::string text) {
    handed_out = std::move(text);
    return handed_out.c_str();
}

/// Widths grow with the size of type: each text is measured once, and once for all sizes.
double text_width(Face face, double size, std::string_view words) {
    constexpr double measured_size = 100;
    constexpr std::size_t most = 20'000;
    static std::unordered_map<std::string, double> known;
    std::string key(1, static_cast<char>(face));
    key += words;
    const auto found = known.find(key);
    if (found != known.end()) return found->second * size / measured_size;
    if (known.size() > most) known.clear();
    const double width =
        measured_width(static_cast<int>(face), words.data(), static_cast<int>(words.size()));
    known.emplace(std::move(key), width);
    return width * size / measured_size;
}

Browser browser() {
    Browser b;
    b.copy = [](const std::string& text) { ask_browser("copy", text.c_str(), 0); };
    b.full_screen = [] { ask_browser("full-screen", "", 0); };
    b.swell = [](double swing_s) { ask_browser("swell", "", swing_s); };
    b.help = [] { ask_browser("help", "", 0); };
    b.print = [](const std::string& name, const std::string& pages) {
        ask_browser("print", (name + '\n' + pages).c_str(), 0);
    };
    b.ask_beside = [](const Numbers& question) {
        return ask_worker(question.data(), question.size()) != 0;
    };
    return b;
}

}  // namespace

/// Pages are set in the page's own fonts, as what is seen.
dewtrail::TextWidth dewtrail::paper_width() {
    return text_width;
}

namespace {

template <class Do>
void act(Do what) {
    if (!page) return;
    try {
        what(page->shell());
        page->grant_wishes();
    } catch (const std::exception& error) {
        page->shell().complain(error);
    }
}

/// 1 Ctrl, 2 Shift, 4 a finger.
Held held_of(int bits) {
    return {(bits & 1) != 0, (bits & 2) != 0, (bits & 4) != 0};
}

bool failed = false;  ///< what was handed out last is what went wrong

template <class Make>
const char* words_from(Make make) {
    failed = false;
    try {
        return hand_out(make());
    } catch (const std::exception& error) {
        failed = true;
        return hand_out(told(error));
    }
}

}  // namespace

extern "C" {

/// Empty, or why it did not open.
EMSCRIPTEN_KEEPALIVE const char* dewtrail_open(double width, double height, int dusk,
                                               int less_motion) {
    return words_from([&]() -> std::string {
        PageStart start;
        start.width = width;
        start.height = height;
        start.dusk = dusk != 0;
        start.less_motion = less_motion != 0;
        page = std::make_unique<Page>(start, browser());
        return "";
    });
}
EMSCRIPTEN_KEEPALIVE void dewtrail_resize(double width, double height, double fine, double coarse) {
    scale = fine;
    dragging_scale = coarse;
    act([&](Shell& shell) {
        shell.resize(width, height);
        shell.forget_ground();
    });
}
EMSCRIPTEN_KEEPALIVE void dewtrail_moved(double x, double y, int held) {
    act([&](Shell& shell) { shell.pointer_moved({x, y}, held_of(held)); });
}
EMSCRIPTEN_KEEPALIVE void dewtrail_pressed(double x, double y, int button, int held, int twice) {
    act([&](Shell& shell) {
        shell.pointer_pressed({x, y}, static_cast<Button>(button), held_of(held), twice != 0);
    });
}
EMSCRIPTEN_KEEPALIVE void dewtrail_released(double x, double y) {
    act([&](Shell& shell) { shell.pointer_released({x, y}); });
}
EMSCRIPTEN_KEEPALIVE void dewtrail_wheel(double clicks, double x, double y, int held) {
    act([&](Shell& shell) { shell.wheel(clicks, {x, y}, held_of(held)); });
}
EMSCRIPTEN_KEEPALIVE void dewtrail_key(int code, int ctrl, int shift) {
    act([&](Shell& shell) { shell.press({code, ctrl != 0, shift != 0}); });
}
EMSCRIPTEN_KEEPALIVE void dewtrail_enter(const char* characters) {
    act([&](Shell& shell) { shell.enter(characters); });
}
EMSCRIPTEN_KEEPALIVE void dewtrail_paste(const char* text) {
    act([&](Shell& shell) { shell.paste(text); });
}
EMSCRIPTEN_KEEPALIVE int dewtrail_typing() {
    return page && page->shell().typing();
}
/// The value that is typed, a line each: its name, its text so far, and 'ruler' where it has one.
EMSCRIPTEN_KEEPALIVE const char* dewtrail_value() {
    const auto value = page ? page->shell().typed_value() : std::nullopt;
    if (!value) return "";
    return hand_out(std::string(value->name) + '\n' + page->shell().typed_text() + '\n' +
                    (value->slide ? "ruler" : ""));
}
EMSCRIPTEN_KEEPALIVE void dewtrail_slide(double share, int done) {
    act([&](Shell& shell) { shell.slide_typed(share, done != 0); });
}
EMSCRIPTEN_KEEPALIVE int dewtrail_dragging() {
    return page && page->shell().dragging();
}
EMSCRIPTEN_KEEPALIVE int dewtrail_hand() {
    return page && page->shell().hand_cursor();
}
/// What a touch there would do: 2 types a value, 1 is a tap, 0 takes hold.
EMSCRIPTEN_KEEPALIVE int dewtrail_touched(double x, double y) {
    if (!page) return 0;
    const auto target = touched_target(page->shell().targets(), {x, y});
    if (!target) return 0;
    if (page->shell().types(*target)) return 2;
    switch (target->what) {
        case What::field:
        case What::ruler:
        case What::time_line:
        case What::note_edge:
            return 0;
        default:
            return 1;
    }
}
EMSCRIPTEN_KEEPALIVE int dewtrail_advance(double seconds) {
    bool moving = false;
    act([&](Shell& shell) { moving = shell.advance(seconds); });
    return moving;
}
/// Draws; 1 if the ground is new.
EMSCRIPTEN_KEEPALIVE int dewtrail_frame() {
    if (!page) return 0;
    Shell& shell = page->shell();
    static bool coarse = false;
    if (std::exchange(coarse, shell.dragging()) && !coarse) shell.forget_ground();
    const double now = coarse ? dragging_scale : scale;
    const Frame frame = shell.frame(text_width);
    const Layout& l = shell.layout();
    const Rect all{0, 0, l.width, l.height};
    picture_drawing.draw(frame.picture, all, now);
    if (frame.ground.empty()) return 0;
    ground_drawing.draw(frame.ground, all, now);
    return 1;
}
EMSCRIPTEN_KEEPALIVE const std::uint32_t* dewtrail_drawing(int ground) {
    return drawing_of(ground).words().data();
}
EMSCRIPTEN_KEEPALIVE int dewtrail_drawing_size(int ground) {
    return static_cast<int>(drawing_of(ground).words().size());
}
EMSCRIPTEN_KEEPALIVE const Drawing::Corner* dewtrail_corners(int ground) {
    return drawing_of(ground).corners().data();
}
EMSCRIPTEN_KEEPALIVE int dewtrail_corners_size(int ground) {
    return static_cast<int>(drawing_of(ground).corners().size());
}
/// Some of a drawing's triangles as pixels within a box: x, y, width, height, where the pixels are,
/// and how many of them there are to one of the picture.
EMSCRIPTEN_KEEPALIVE const double* dewtrail_raster(int ground, int first, int count, double x,
                                                   double y, double w, double h) {
    static Raster raster;
    static double told[6];
    const Drawing& drawing = drawing_of(ground);
    raster = rasterised(drawing.corners().data() + first, static_cast<std::size_t>(count),
                        {x, y, w, h}, drawing.scale());
    const double now[6] = {
        static_cast<double>(raster.x),
        static_cast<double>(raster.y),
        static_cast<double>(raster.w),
        static_cast<double>(raster.h),
        static_cast<double>(reinterpret_cast<std::uintptr_t>(raster.pixels.data())),
        drawing.scale()};
    std::copy(now, now + 6, told);
    return told;
}
/// Where the ground lies: x, y, width and height, and the paper's colour.
EMSCRIPTEN_KEEPALIVE const double* dewtrail_ground_box() {
    static double box[5];
    const Layout& l = page->shell().layout();
    const Colour paper = palette(page->shell().appearance().theme).paper;
    const double now[5] = {l.green.x, l.green.y, std::ceil(l.green.w),
                           l.setup_strip.bottom() - l.green.y,
                           static_cast<double>(paper.r << 16 | paper.g << 8 | paper.b)};
    std::copy(now, now + 5, box);
    return box;
}
/// The mode, its account, and its message, as text.
EMSCRIPTEN_KEEPALIVE const char* dewtrail_account() {
    if (!page) return "";
    Shell& shell = page->shell();
    return hand_out(shell.message() + "\n" + words_for(shell.name()) + "\n" +
                    shell.mode().as_text());
}
/// What the mode knows of itself, and where things stand, for tests: 'name value' and 'name x y'.
EMSCRIPTEN_KEEPALIVE const char* dewtrail_state() {
    if (!page) return "";
    std::string text = std::string("mode ") + words_for(page->shell().name()) + "\n";
    for (const auto& [name, value] : page->shell().state()) {
        text += name + ' ';
        if (const auto* number = std::get_if<double>(&value)) text += std::to_string(*number);
        if (const auto* words = std::get_if<std::string>(&value)) text += *words;
        if (const auto* yes = std::get_if<bool>(&value)) text += *yes ? "true" : "false";
        text += '\n';
    }
    for (const auto& [name, at] : page->shell().places())
        text += "at " + name + ' ' + std::to_string(at.x()) + ' ' + std::to_string(at.y()) + '\n';
    return hand_out(text);
}
/// A line each: what it does, and its keys after tabs.
EMSCRIPTEN_KEEPALIVE const char* dewtrail_help() {
    std::string text;
    for (const ModeCommand& command : page->shell().help_commands()) {
        text += command.help;
        for (const NamedKey& named : named_keys(command.keys)) {
            text += '\t';
            text += named.words;
        }
        text += '\n';
    }
    return hand_out(text);
}
/// The words that are explained: a word, a tab, and its sentence.
EMSCRIPTEN_KEEPALIVE const char* dewtrail_words() {
    std::string text;
    for (const Explained& word : glossary())
        text.append(word.word).append("\t").append(word.sentence).append("\n");
    return hand_out(text);
}
EMSCRIPTEN_KEEPALIVE void dewtrail_press_help(int number) {
    act([&](Shell& shell) { shell.press_help(number); });
}
EMSCRIPTEN_KEEPALIVE void dewtrail_say(const char* words) {
    act([&](Shell& shell) { shell.complain(std::string(words)); });
}
/// One swing of the putter as samples, to be played over and over.
EMSCRIPTEN_KEEPALIVE const std::int16_t* dewtrail_swell(double swing_s, int per_second) {
    swell = swell_samples(swing_s, per_second);
    return swell.data();
}
EMSCRIPTEN_KEEPALIVE int dewtrail_swell_size() {
    return static_cast<int>(swell.size());
}
/// Whether the text handed out last says what went wrong.
EMSCRIPTEN_KEEPALIVE int dewtrail_failed() {
    return failed;
}
/// Whose page it is; nobody's: empty.
EMSCRIPTEN_KEEPALIVE const char* dewtrail_pupil() {
    return hand_out(page ? page->pupil() : "");
}
/// The folder of their memory.
EMSCRIPTEN_KEEPALIVE const char* dewtrail_memory() {
    return words_from([] { return page->memory_folder().string(); });
}
EMSCRIPTEN_KEEPALIVE const char* dewtrail_add(const char* folder, const char* file) {
    return words_from([&] { return add_to_memory(folder, file); });
}
EMSCRIPTEN_KEEPALIVE const char* dewtrail_csv() {
    return words_from([] { return answers_as_csv(page->memory_folder()); });
}
/// What the worker says of odds, or no numbers: nobody answers any more. Whether more is to come.
EMSCRIPTEN_KEEPALIVE int dewtrail_answered(const double* numbers, int size) {
    OutlookDeskBeside& odds = *page->odds();
    if (size > 0) return odds.hear(Numbers(numbers, numbers + size));
    odds.lost();
    return 0;
}

// In the worker, an instance of its own without a page.
EMSCRIPTEN_KEEPALIVE void dewtrail_ask(const double* numbers, int size) {
    clerk.ask(Numbers(numbers, numbers + size));
}
/// A piece of work, and what came of it. Whether there is more.
EMSCRIPTEN_KEEPALIVE int dewtrail_work() {
    if (const auto answer = clerk.work()) answer_page(answer->data(), answer->size());
    return clerk.busy();
}

EMSCRIPTEN_KEEPALIVE const char* dewtrail_figures(const char* distance, const char* slope,
                                                  const char* clock, const char* stimp,
                                                  const char* past) {
    return words_from([&] {
        return figures_of_read({distance, slope, clock, stimp, past}, "/greens");
    });
}

}  // extern "C"
