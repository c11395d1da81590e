#pragma once

#include <memory>
#include <vector>

#include "viewer/putt/outlook.hpp"

/// Questions about odds, and their answers, as rows of numbers: what two instances of the program
/// can send each other. Exact: doubles stay what they are, bit by bit, and the ground goes as the
/// numbers that its surface is made of, so that nothing is read or fitted again.
namespace dewtrail {

using Numbers = std::vector<double>;

/// Of the read goes what an OutlookMaker looks at: stroke, level roll and room.
/// std::invalid_argument for ground of a kind that is not known here.
Numbers numbers_of(const OutlookQuestion& question);
Numbers numbers_of(const Outlook& outlook);

/// std::invalid_argument for a row that is none, of these two.
Outlook outlook_in(const Numbers& row);

/// Makes questions of rows again; those on the same ground share it, as whoever answers them wants.
class QuestionReader {
  public:
    OutlookQuestion question_in(const Numbers& row);

  private:
    Numbers ground_;
    std::shared_ptr<const Surface> surface_;
    std::shared_ptr<const Outline> outline_;
};

}  // namespace dewtrail
