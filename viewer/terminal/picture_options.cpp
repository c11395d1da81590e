#include "viewer/terminal/picture_options.hpp"

#include <fmt/format.h>

#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"

namespace dewtrail {

void add_picture_options(const Command& command, PictureOptions& options, const std::string& what) {
    constexpr const char* group = "Picture";
    command.add_option("--png", options.png, what + " as a picture to write, PNG").group(group);
    command.add_option("--theme", options.theme, "Of the picture: dew (light) or dusk (dark)")
        .one_of({"dew", "dusk"})
        .group(group);
}

void check_picture(const std::optional<std::string>& file, const char* ending) {
    if (!file) return;
    check_ending(*file, {ending}, "a picture");
    check_may_be_file(*file);
}

void check_picture(const PictureOptions& options) {
    check_picture(options.png);
    check_goes_with_picture(options, options.theme.has_value(), "--theme");
}

void check_goes_with_picture(const PictureOptions& options, bool given, const char* option) {
    if (given && !options.png)
        throw InputError(fmt::format("{} is that of a picture", option), "Add --png FILE.png.");
}

void print_picture(Session& session, const std::optional<std::string>& file) {
    if (file && !session.json()) print_row(session.out(), "Picture", *file);
}

}  // namespace dewtrail
