#pragma once

#include <optional>
#include <string>

#include "viewer/picture/palette.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// Where a picture goes, and how it looks.
struct PictureOptions {
    std::optional<std::string> png, theme;

    Theme look() const { return theme == "dusk" ? Theme::dusk : Theme::dew; }
};

void add_picture_options(const Command& command, PictureOptions& options, const std::string& what);

/// Before any work: InputError for a picture whose name does not end as it is written, or whose
/// folder is not there; OutsideError where no file can be.
void check_picture(const std::optional<std::string>& file, const char* ending = ".png");

/// The same, and InputError for an option of a picture that is not asked for.
void check_picture(const PictureOptions& options);
void check_goes_with_picture(const PictureOptions& options, bool given, const char* option);

/// Tells where a picture is.
void print_picture(Session& session, const std::optional<std::string>& file);

}  // namespace dewtrail
