#pragma once

#include <optional>
#include <string>

#include "viewer/picture/palette.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// Where a picture goes, and how it looks.
struct PictureOptions {
    std::optional<std::string> png;
    std::string theme = "dew";

    Theme look() const { return theme == "dusk" ? Theme::dusk : Theme::dew; }
};

void add_picture_options(const Command& command, PictureOptions& options, const std::string& what);

/// Tells where a picture is.
void print_picture(Session& session, const std::optional<std::string>& file);

}  // namespace dewtrail
