#include "viewer/window/entry_box.hpp"

#include <backends/imgui_impl_opengl2.h>
#include <imgui.h>
#include <imgui_stdlib.h>

#include <SFML/Window/Clipboard.hpp>
#include <cmath>

namespace dewtrail {
namespace {

/// ImGui's font sizes are ascent plus descent, ours are em.
constexpr double gentium_line_em = 1.465;

ImVec4 imgui(const Colour& c) {
    return {static_cast<float>(c.r) / 255, static_cast<float>(c.g) / 255,
            static_cast<float>(c.b) / 255, static_cast<float>(c.a) / 255};
}

const char* clipboard_text(void*) {
    static std::string text;
    const auto utf8 = sf::Clipboard::getString().toUtf8();
    text.assign(utf8.begin(), utf8.end());
    return text.c_str();
}

void set_clipboard_text(void*, const char* text) {
    const std::string s(text);
    sf::Clipboard::setString(sf::String::fromUtf8(s.begin(), s.end()));
}

void map_keys(ImGuiIO& io) {
    using K = sf::Keyboard;
    const std::pair<int, int> keys[] = {{ImGuiKey_LeftArrow, K::Left},
                                        {ImGuiKey_RightArrow, K::Right},
                                        {ImGuiKey_UpArrow, K::Up},
                                        {ImGuiKey_DownArrow, K::Down},
                                        {ImGuiKey_Home, K::Home},
                                        {ImGuiKey_End, K::End},
                                        {ImGuiKey_Delete, K::Delete},
                                        {ImGuiKey_Backspace, K::Backspace},
                                        {ImGuiKey_Enter, K::Enter},
                                        {ImGuiKey_A, K::A},
                                        {ImGuiKey_C, K::C},
                                        {ImGuiKey_V, K::V},
                                        {ImGuiKey_X, K::X},
                                        {ImGuiKey_Y, K::Y},
                                        {ImGuiKey_Z, K::Z}};
    for (const auto& [to, from] : keys) io.KeyMap[to] = from;
}

}  // namespace

EntryBox::EntryBox(sf::RenderWindow& window, const Fonts& fonts)
    : window_(window), font_file_(fonts.file(Face::book)) {
    ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.GetClipboardTextFn = clipboard_text;
    io.SetClipboardTextFn = set_clipboard_text;
    map_keys(io);
    window_.setActive(true);
    ImGui_ImplOpenGL2_Init();
}

EntryBox::~EntryBox() {
    window_.setActive(true);
    ImGui_ImplOpenGL2_Shutdown();
    ImGui::DestroyContext();
}

void EntryBox::forget() {
    field_.reset();
    mouse_held_ = mouse_pressed_ = {};
    key_held_ = key_pressed_ = {};
}

void EntryBox::drop_texture() {
    window_.setActive(true);
    ImGui_ImplOpenGL2_DestroyFontsTexture();
    font_px_ = 0;
    forget();
}

void EntryBox::take_key(const sf::Event::KeyEvent& event, bool down) {
    const int code = event.code;  // −1: a key without a name
    if (code >= 0 && static_cast<std::size_t>(code) < key_held_.size()) {
        const auto i = static_cast<std::size_t>(code);
        key_held_[i] = down;
        if (down) key_pressed_[i] = true;
    }
    ImGuiIO& io = ImGui::GetIO();
    io.KeyCtrl = event.control;
    io.KeyShift = event.shift;
    io.KeyAlt = event.alt;
}

void EntryBox::take(const sf::Event& event) {
    switch (event.type) {
        case sf::Event::KeyPressed:
            return take_key(event.key, true);
        case sf::Event::KeyReleased:
            return take_key(event.key, false);
        case sf::Event::TextEntered:
            if (event.text.unicode >= 32 && event.text.unicode != 127)
                ImGui::GetIO().AddInputCharacter(event.text.unicode);
            return;
        case sf::Event::MouseButtonPressed:
        case sf::Event::MouseButtonReleased: {
            const auto i = static_cast<std::size_t>(event.mouseButton.button);
            if (i >= mouse_held_.size()) return;
            mouse_held_[i] = event.type == sf::Event::MouseButtonPressed;
            if (mouse_held_[i]) mouse_pressed_[i] = true;
            return;
        }
        case sf::Event::LostFocus:
            mouse_held_ = {}, key_held_ = {};
            return;
        default:
            return;
    }
}

void EntryBox::set_font(double size_px) {
    if (std::abs(size_px - font_px_) < 0.5) return;
    static const ImWchar ranges[] = {0x20,   0xFF,   0x2013, 0x2019, 0x2032, 0x2033,
                                     0x215B, 0x215E, 0x2212, 0x2212, 0};
    ImGuiIO& io = ImGui::GetIO();
    ImGui_ImplOpenGL2_DestroyFontsTexture();
    io.Fonts->Clear();
    io.Fonts->AddFontFromFileTTF(font_file_.c_str(),
                                 static_cast<float>(std::round(size_px * gentium_line_em)), nullptr,
                                 ranges);
    ImGui_ImplOpenGL2_CreateFontsTexture();
    font_px_ = size_px;
}

void EntryBox::set_colours(const Palette& c) const {
    ImVec4* colours = ImGui::GetStyle().Colors;
    colours[ImGuiCol_Text] = imgui(c.ink);
    colours[ImGuiCol_FrameBg] = imgui(c.paper);
    colours[ImGuiCol_TextSelectedBg] = imgui(faded(c.copper, 0.35));
    colours[ImGuiCol_WindowBg] = colours[ImGuiCol_Border] = {0, 0, 0, 0};
}

void EntryBox::begin_frame(double seconds) {
    ImGuiIO& io = ImGui::GetIO();
    const auto size = window_.getSize();
    io.DisplaySize = {static_cast<float>(size.x), static_cast<float>(size.y)};
    io.DeltaTime = static_cast<float>(std::max(1e-4, seconds));
    const auto mouse = sf::Mouse::getPosition(window_);
    io.MousePos = {static_cast<float>(mouse.x), static_cast<float>(mouse.y)};
    for (std::size_t i = 0; i < mouse_held_.size(); ++i)
        io.MouseDown[i] = mouse_held_[i] || mouse_pressed_[i];
    for (std::size_t i = 0; i < key_held_.size(); ++i)
        io.KeysDown[i] = key_held_[i] || key_pressed_[i];
    mouse_pressed_ = {};
    key_pressed_ = {};
    ImGui_ImplOpenGL2_NewFrame();
    ImGui::NewFrame();
}

std::optional<std::string> EntryBox::show(const Typing& typing, const Palette& colours,
                                          double seconds) {
    if (field_ != typing.field) {
        forget();
        field_ = typing.field;
        text_ = typing.text;
        frames_ = 0;
        ++entry_;
    }
    window_.setActive(true);
    set_font(typing.size_px);
    set_colours(colours);
    begin_frame(seconds);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {4, 0});
    ImGui::PushStyleVar(ImGuiStyleVar_FrameRounding, 4);
    const auto x = static_cast<float>(typing.where.x - 2);
    const auto y =
        static_cast<float>(typing.where.centre().y() - typing.size_px * gentium_line_em / 2);
    ImGui::SetNextWindowPos({x, y});
    ImGui::SetNextWindowSize(
        {static_cast<float>(typing.where.w + 8), static_cast<float>(typing.size_px * 1.6)});
    ImGui::Begin("entry", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoSavedSettings);
    ImGui::SetNextItemWidth(-1);
    if (frames_++ == 0) ImGui::SetKeyboardFocusHere();
    ImGui::PushID(entry_);
    const bool done = ImGui::InputText(
        "##text", &text_, ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_AutoSelectAll);
    ImGui::PopID();
    ImGui::End();
    ImGui::PopStyleVar(3);
    ImGui::Render();
    window_.resetGLStates();
    ImGui_ImplOpenGL2_RenderDrawData(ImGui::GetDrawData());
    window_.resetGLStates();
    if (!done) return std::nullopt;
    const std::string typed = text_;
    forget();
    return typed;
}

}  // namespace dewtrail
