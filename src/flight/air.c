/* air.c - ISO 2533, and the air of the day. */
#include "flight/air.h"

#include <math.h>

/* ISO 2533:1975, at sea level. */
static const double standard_K = 288.15, standard_Pa = 101325;

double air_density_kg_m3(double pressure_Pa, double temperature_K) {
    return pressure_Pa / (GAS_J_kg_K * temperature_K);
}

/* A column of air that cools by the standard lapse, in balance with its weight: from its foot
 * up (or, with a negative height, down). */
static struct air climb(double foot_K, double foot_Pa, double height_m) {
    double temperature_K = foot_K - LAPSE_K_m * height_m;
    double pressure_Pa =
        foot_Pa * pow(temperature_K / foot_K, GRAVITY_m_s2 / (GAS_J_kg_K * LAPSE_K_m));
    return (struct air){temperature_K, pressure_Pa, air_density_kg_m3(pressure_Pa, temperature_K)};
}

struct air air_standard(double altitude_m) {
    return climb(standard_K, standard_Pa, altitude_m);
}

struct air air_of_day(const struct design *design, double above_field_m) {
    double field_Pa = air_standard(design->air.altitude_m).pressure_Pa;
    return climb(design->air.ground_C + ZERO_C_K, field_Pa, above_field_m);
}
