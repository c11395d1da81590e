#include "viewer/putt/outlook_desk.hpp"

#include <exception>
#include <utility>

#include "viewer/putt/newest_in_turn.hpp"
#ifndef DEWTRAIL_ONE_THREAD
#include "viewer/putt/newest_only.hpp"
#endif

namespace dewtrail {
namespace {

/// A desk whose questions go to such a worker.
template <class Worker>
class DeskOf final : public OutlookDesk {
  public:
    template <class... How>
    explicit DeskOf(How... how) : worker_(work(), how...) {}

    void ask(OutlookQuestion question) override { worker_.ask(std::move(question)); }
    void forget() override { worker_.forget(); }
    std::optional<Outlook> take() override { return worker_.take(); }
    bool busy() const override { return worker_.busy(); }
    void wait() override { worker_.wait(); }

  private:
    static typename Worker::Work work() {
        return [maker = OutlookMaker()](const OutlookQuestion& question,
                                        const typename Worker::Tell& tell) mutable {
            try {
                maker.answer(question, tell);
            } catch (const std::exception&) {
                Outlook none;
                none.number = question.number;
                none.complete = true;
                tell(none);
            }
        };
    }

    Worker worker_;
};

}  // namespace

std::shared_ptr<OutlookDesk> outlook_desk_in_turn(int patience) {
    return std::make_shared<DeskOf<NewestInTurn<OutlookQuestion, Outlook>>>(patience);
}

std::shared_ptr<OutlookDesk> outlook_desk() {
#ifdef DEWTRAIL_ONE_THREAD
    return outlook_desk_in_turn();
#else
    return std::make_shared<DeskOf<NewestOnly<OutlookQuestion, Outlook>>>();
#endif
}

}  // namespace dewtrail
