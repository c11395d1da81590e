#include "viewer/putt/outlook_desk.hpp"

#include <exception>

namespace dewtrail {

OutlookDesk::OutlookDesk()
    : Desk([maker = OutlookMaker()](const OutlookQuestion& question, const Tell& tell) mutable {
          try {
              maker.answer(question, tell);
          } catch (const std::exception&) {
              Outlook none;
              none.number = question.number;
              none.complete = true;
              tell(none);
          }
      }) {}

}  // namespace dewtrail
