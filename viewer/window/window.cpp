#include "viewer/window/window.hpp"

#include <SFML/Graphics/RenderTexture.hpp>
#include <SFML/Graphics/RenderWindow.hpp>
#include <SFML/System/Clock.hpp>
#include <SFML/System/Err.hpp>
#include <SFML/System/Sleep.hpp>
#include <SFML/Window/Clipboard.hpp>
#include <SFML/Window/Cursor.hpp>
#include <SFML/Window/Event.hpp>
#include <algorithm>
#include <chrono>
#include <cmath>
#include <csignal>

#include "viewer/files/whole_file.hpp"
#include "viewer/paper/sheet.hpp"
#include "viewer/practice/player.hpp"
#include "viewer/window/display.hpp"
#include "viewer/window/ground_texture.hpp"
#include "viewer/window/keyboard.hpp"
#include "viewer/window/painter.hpp"
#include "viewer/window/shown_file.hpp"
#include "viewer/window/swell_sound.hpp"
#include "viewer/window/trace.hpp"

namespace dewtrail {
namespace {

constexpr float frame_s = 1.0f / 60;
constexpr float twice_within_s = 0.4f;
constexpr double twice_within_px = 6;
constexpr unsigned wide_desktop_px = 2560;
constexpr int idle_ms = 10;

/// Set by a signal to end: the window then closes as if by hand.
volatile std::sig_atomic_t told_to_end = 0;

void end_when_told() {
    std::signal(SIGTERM, [](int) { told_to_end = 1; });
}

Modes modes_of(WindowOptions& options) {
    for (const auto& [name, maker] : options.modes) options.start.modes.push_back(name);
    std::sort(options.start.modes.begin(), options.start.modes.end());
    Modes modes(Shell::with<ReadMode>(options.start, options.start));
    for (auto& [name, maker] : options.modes)
        modes.offer(name, maker,
                    name == ModeName::green ? Modes::Holds::nothing : Modes::Holds::player);
    modes.offer(ModeName::read, options.read_again);
    if (options.first != ModeName::read) modes.change(options.first, options.start.setup);
    return modes;
}

void save_screenshot(WindowOptions& options) {
    const auto w = static_cast<unsigned>(options.start.width),
               h = static_cast<unsigned>(options.start.height);
    sf::RenderTexture picture;
    if (!picture.create(w, h)) throw OutsideError("no picture of that size could be made");
    Fonts fonts;
    Painter painter(fonts);
    GroundTexture ground;
    ground.resize(w, h);
    Modes modes = modes_of(options);
    Shell& mode = modes.now();
    mode.wait_until_settled();
    const Frame frame =
        mode.frame([&](Face f, double s, std::string_view t) { return fonts.width(f, s, t); });
    Trace trace(options.trace);
    trace.write("screenshot", mode, 0);
    ground.paint(painter, frame);
    picture.clear(sfml(palette(mode.appearance().theme).paper));
    ground.draw(picture, mode.layout());
    painter.paint(picture, frame.picture);
    picture.display();
    const sf::Image pixels = picture.getTexture().copyToImage();
    save_whole_file(options.screenshot,
                    png_of(pixels.getPixelsPtr(), static_cast<int>(w), static_cast<int>(h)));
}

/// What only the display can tell.
void suit_desktop(WindowOptions& options) {
    const sf::VideoMode desktop = sf::VideoMode::getDesktopMode();
    ReadStart& start = options.start;
    if (options.within_desktop) {
        start.width = std::clamp<double>(start.width, least_window_width,
                                         std::max<double>(desktop.width, least_window_width));
        start.height = std::clamp<double>(start.height, least_window_height,
                                          std::max<double>(desktop.height, least_window_height));
    }
    if (options.text_by_desktop && desktop.width >= wide_desktop_px) start.text = 1.25;
}

class Window {
  public:
    explicit Window(WindowOptions options)
        : options_(std::move(options)),
          window_(sf::VideoMode(static_cast<unsigned>(options_.start.width),
                                static_cast<unsigned>(options_.start.height)),
                  title_of(options_.start.pupil)),
          painter_(fonts_),
          trace_(options_.trace),
          modes_(modes_of(options_)) {
        window_.setPosition({0, 0});
        window_.setKeyRepeatEnabled(true);
        hand_known_ =
            hand_.loadFromSystem(sf::Cursor::Hand) && arrow_.loadFromSystem(sf::Cursor::Arrow);
        resized();
        end_when_told();
    }

    void run() {
        sf::Clock clock;
        bool moving = true;
        while (window_.isOpen()) {
            const bool changed = take_events(!moving);
            const double seconds = std::min(0.1f, clock.restart().asSeconds());
            moving = mode().advance(moving ? seconds : 0);
            grant_wishes();
            if (!window_.isOpen()) return;
            if (!changed && !moving && !first_) continue;
            first_ = false;
            draw();
            const float used = clock.getElapsedTime().asSeconds();
            if (used < frame_s) sf::sleep(sf::seconds(frame_s - used));
        }
    }

  private:
    bool take_events(bool wait) {
        sf::Event event;
        bool any = false;
        if (wait) {
            while (!told_to_end && !window_.pollEvent(event)) sf::sleep(sf::milliseconds(idle_ms));
            if (!told_to_end) take(event);
            any = true;
        }
        if (told_to_end) window_.close();
        while (window_.isOpen() && window_.pollEvent(event)) {
            take(event);
            any = true;
        }
        return any;
    }

    void take(const sf::Event& event) {
        switch (event.type) {
            case sf::Event::Closed:
                window_.close();
                break;
            case sf::Event::Resized:
                resized();
                break;
            case sf::Event::KeyPressed:
                mode().press(key_press(event.key));
                break;
            case sf::Event::TextEntered:
                if (event.text.unicode >= ' ' && event.text.unicode != 127)
                    mode().enter(utf8(event.text.unicode));
                break;
            case sf::Event::MouseMoved:
                mode().pointer_moved(Vec2(event.mouseMove.x, event.mouseMove.y), held());
                break;
            case sf::Event::MouseButtonPressed:
                take_press(event.mouseButton);
                break;
            case sf::Event::MouseButtonReleased:
                mode().pointer_released(Vec2(event.mouseButton.x, event.mouseButton.y));
                break;
            case sf::Event::MouseWheelScrolled:
                mode().wheel(event.mouseWheelScroll.delta,
                             Vec2(event.mouseWheelScroll.x, event.mouseWheelScroll.y), held());
                break;
            case sf::Event::LostFocus:
                mode().pointer_released(last_press_);
                break;
            default:
                break;
        }
        grant_wishes();
    }

    static Held held() {
        using K = sf::Keyboard;
        return {K::isKeyPressed(K::LControl) || K::isKeyPressed(K::RControl),
                K::isKeyPressed(K::LShift) || K::isKeyPressed(K::RShift)};
    }

    static std::string utf8(const sf::String& characters) {
        const auto bytes = characters.toUtf8();
        return {bytes.begin(), bytes.end()};
    }

    void take_press(const sf::Event::MouseButtonEvent& event) {
        const Vec2 at(event.x, event.y);
        const bool twice = since_press_.restart().asSeconds() < twice_within_s &&
                           (at - last_press_).norm() < twice_within_px;
        last_press_ = at;
        const Button button = event.button == sf::Mouse::Left     ? Button::left
                              : event.button == sf::Mouse::Middle ? Button::middle
                                                                  : Button::right;
        mode().pointer_pressed(at, button, held(), twice);
    }

    Shell& mode() { return modes_.now(); }

    void grant_wishes() {
        for (const Wish& wish : mode().take_wishes()) switch (wish.kind) {
                case Wish::Kind::copy_text:
                    sf::Clipboard::setString(
                        sf::String::fromUtf8(wish.text.begin(), wish.text.end()));
                    break;
                case Wish::Kind::paste_text:
                    mode().paste(utf8(sf::Clipboard::getString()));
                    break;
                case Wish::Kind::full_screen:
                    switch_full_screen();
                    break;
                case Wish::Kind::help:  // the sheets here tell it
                    break;
                case Wish::Kind::hints_done:
                    if (options_.hints_done) options_.hints_done();
                    break;
                case Wish::Kind::remember_spread:
                    remember_spread(*wish.spread, wish.text);
                    break;
                case Wish::Kind::keep_putt:
                    if (options_.keep_putt) options_.keep_putt(*wish.putt);
                    break;
                case Wish::Kind::change_mode:
                    mode().pointer_released(last_press_);  // ends any drag
                    modes_.change(wish.mode, wish.putt, wish.text);
                    break;
                case Wish::Kind::swell:
                    swell_.set(wish.on, options_.swing_s());
                    break;
                case Wish::Kind::pupils:
                case Wish::Kind::add_pupil:
                case Wish::Kind::adopt_own:
                case Wish::Kind::choose_pupil:
                    if (grant_pupil_wish(modes_, options_.pupils, wish)) tell_whose();
                    break;
                case Wish::Kind::print:
                    print(wish);
                    break;
                case Wish::Kind::show_file:
                    if (const std::string trouble = show_file(wish.text); !trouble.empty())
                        mode().complain(trouble);
                    break;
            }
    }

    void print(const Wish& wish) {
        if (!options_.print) return;
        const PrintedPage page = options_.print(wish, mode().units());
        mode().say(page.words, page.file);
    }

    /// The stroke whose time the tone kept is no longer the one.
    void tell_whose() {
        swell_.set(false, 0);
        window_.setTitle(title_of(mode().appearance().pupil));
    }

    static sf::String title_of(const std::string& pupil) {
        const std::string title = pupil.empty() ? "Dewtrail" : pupil + " – Dewtrail";
        return sf::String::fromUtf8(title.begin(), title.end());
    }

    void remember_spread(const Spread& spread, const std::string& from) {
        modes_.spread_changed(spread);
        if (!options_.remember_spread) return;
        const std::string wrong = options_.remember_spread(spread, from);
        if (!wrong.empty()) mode().say(wrong);
    }

    /// SFML can only change this by making the window anew.
    void switch_full_screen() {
        full_screen_ = !full_screen_;
        const sf::VideoMode size =
            full_screen_ ? sf::VideoMode::getDesktopMode()
                         : sf::VideoMode(static_cast<unsigned>(options_.start.width),
                                         static_cast<unsigned>(options_.start.height));
        window_.create(size, title_of(mode().appearance().pupil),
                       full_screen_ ? sf::Style::None : sf::Style::Default);
        window_.setPosition({0, 0});
        resized();
    }

    void resized() {
        const sf::Vector2u size = window_.getSize();
        const unsigned w = std::max<unsigned>(size.x, least_window_width),
                       h = std::max<unsigned>(size.y, least_window_height);
        if (!full_screen_ && (w != size.x || h != size.y)) window_.setSize({w, h});
        window_.setView(
            sf::View(sf::FloatRect(0, 0, static_cast<float>(w), static_cast<float>(h))));
        ground_.resize(w, h);
        mode().resize(w, h);
        mode().forget_ground();
    }

    void draw() {
        const auto start = std::chrono::steady_clock::now();
        Frame frame = mode().frame(
            [this](Face f, double s, std::string_view t) { return fonts_.width(f, s, t); });
        ground_.paint(painter_, frame);
        window_.setActive(true);
        window_.clear(sfml(palette(mode().appearance().theme).paper));
        ground_.draw(window_, mode().layout());
        painter_.paint(window_, frame.picture);
        set_cursor();
        window_.display();
        const std::chrono::duration<double, std::milli> took =
            std::chrono::steady_clock::now() - start;
        for (const std::string& action : mode().take_actions())
            trace_.write(action, mode(), took.count());
    }

    void set_cursor() {
        const bool hand = mode().hand_cursor();
        if (!hand_known_ || hand == hand_shown_) return;
        window_.setMouseCursor(hand ? hand_ : arrow_);
        hand_shown_ = hand;
    }

    WindowOptions options_;
    sf::RenderWindow window_;
    Fonts fonts_;
    Painter painter_;
    GroundTexture ground_;
    Trace trace_;
    Modes modes_;
    sf::Cursor hand_, arrow_;
    bool hand_known_ = false, hand_shown_ = false, full_screen_ = false, first_ = true;
    SwellSound swell_;
    sf::Clock since_press_;
    Vec2 last_press_{-100, -100};
};

}  // namespace

Exit run_window(WindowOptions options) {
    const auto display = require_display();
    sf::err().rdbuf(nullptr);  // 'vertical sync not supported' would only confuse
    if (!options.screenshot.empty()) {
        save_screenshot(options);
        return Exit::done;
    }
    suit_desktop(options);
    Window(std::move(options)).run();
    return Exit::done;
}

}  // namespace dewtrail
