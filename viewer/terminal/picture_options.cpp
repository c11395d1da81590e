#include "viewer/terminal/picture_options.hpp"

namespace dewtrail {

void add_picture_options(const Command& command, PictureOptions& options, const std::string& what) {
    constexpr const char* group = "Picture";
    command.add_option("--png", options.png, what + " as a picture to write, PNG").group(group);
    command.add_option("--theme", options.theme, "Of the picture: dew (light) or dusk (dark)")
        .one_of({"dew", "dusk"})
        .group(group);
}

void print_picture(Session& session, const std::optional<std::string>& file) {
    if (file && !session.json()) print_row(session.out(), "Picture", *file);
}

}  // namespace dewtrail
