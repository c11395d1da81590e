#pragma once

#include <sys/fsuid.h>
#include <unistd.h>

#include <stdexcept>

namespace dewtrail {

/// For its time this thread opens files as an ordinary user who owns none of them: rights bind,
/// also where the tests are run by the superuser.
class OrdinaryUser {
  public:
    OrdinaryUser() {
        if (geteuid() != 0) return;
        setfsuid(nobody);
        if (setfsuid(nobody) != nobody) throw std::runtime_error("cannot act as ordinary user");
    }
    OrdinaryUser(const OrdinaryUser&) = delete;
    OrdinaryUser& operator=(const OrdinaryUser&) = delete;
    ~OrdinaryUser() { setfsuid(geteuid()); }

  private:
    static constexpr int nobody = 65534;
};

}  // namespace dewtrail
