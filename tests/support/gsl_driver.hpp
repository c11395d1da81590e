#pragma once

#include <gsl/gsl_odeiv2.h>

#include <memory>

namespace dewtrail::oracle {

struct FreeDriver {
    void operator()(gsl_odeiv2_driver* driver) const { gsl_odeiv2_driver_free(driver); }
};
using GslDriver = std::unique_ptr<gsl_odeiv2_driver, FreeDriver>;

}  // namespace dewtrail::oracle
