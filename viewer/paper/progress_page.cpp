#include "viewer/paper/progress_page.hpp"

#include <fmt/format.h>

#include "viewer/files/dates.hpp"
#include "viewer/modes/practise/progress_picture.hpp"
#include "viewer/paper/page.hpp"
#include "viewer/text/english.hpp"

namespace dewtrail {

Picture progress_page(const Progress& progress, const std::string& name, Paper paper,
                      const Units& units) {
    PageHead head;
    head.title = name.empty() ? "Practice" : name + ", practice";
    head.name_line = name.empty();
    head.subtitle = counted(progress.answers, "putt");
    if (!progress.lost.empty())
        head.subtitle += ", up to " + short_date(static_cast<int>(progress.lost.back().day), false);
    Page page(paper, head, units);
    draw_progress(page.picture(), progress, page.body(), page.look());
    return page.take();
}

}  // namespace dewtrail
