#include "viewer/window/display.hpp"

#include <cstdio>
#include <cstdlib>
#include <string>

#include "viewer/terminal/session.hpp"

// After Eigen: Xlib's header defines words like Success.
#include <X11/Xlib.h>

namespace dewtrail {
namespace {

/// When the server goes away, Xlib would end the program with its own message and exit code.
/// Nothing is lost: everything was saved when it changed.
[[noreturn]] int display_is_gone(::Display*) {
    std::fputs("the display went away\n", stderr);
    std::_Exit(static_cast<int>(Exit::outside_failed));
}

/// What Xlib would tell in five lines and with exit code 1: most likely another program destroyed
/// the window.
int display_refuses(::Display*, XErrorEvent* error) {
    std::fputs(error->error_code == BadWindow || error->error_code == BadDrawable
                   ? "the window was closed by another program\n"
                   : "the display refused what the window asked of it\n",
               stderr);
    std::_Exit(static_cast<int>(Exit::outside_failed));
}

}  // namespace

std::shared_ptr<void> require_display() {
    const char* name = std::getenv("DISPLAY");
    if (!name || !*name)
        throw OutsideError("there is no display to open a window on (DISPLAY is not set)");
    ::Display* display = XOpenDisplay(nullptr);
    if (!display) throw OutsideError(std::string("the display '") + name + "' does not answer");
    XSetIOErrorHandler(display_is_gone);
    XSetErrorHandler(display_refuses);
    // Kept open: a server that loses its last client may start anew just when SFML calls.
    return {display, [](void* open) { XCloseDisplay(static_cast<::Display*>(open)); }};
}

}  // namespace dewtrail
