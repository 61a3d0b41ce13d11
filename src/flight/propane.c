/* propane.c - vapour pressure by the form of Wagner. */
#include "flight/propane.h"

#include <math.h>

#include "gorewright/base.h"

double fuel_rate_kg_h(double power_W, double heat_J_kg) {
    return 3600 * power_W / heat_J_kg;
}

double propane_pressure_Pa(double temperature_K) {
    static const double critical_K = 369.89, critical_Pa = 4.2512e6;
    static const struct {
        double factor, power;
    } term[] = {{-6.7722, 1}, {1.6938, 1.5}, {-1.3341, 2.2}, {-3.1876, 4.8}, {0.94937, 6.2}};
    double sum = 0, below = 1 - temperature_K / critical_K;
    if (below <= 0)
        return critical_Pa;
    for (size_t i = 0; i < COUNT_OF(term); i++)
        sum += term[i].factor * pow(below, term[i].power);
    return critical_Pa * exp(critical_K / temperature_K * sum);
}
