/* convection.c - published correlations, and the properties of air they take. */
#include "flight/convection.h"

#include <math.h>

double air_viscosity_Pa_s(double temperature_K) {
    return 1.458e-6 * temperature_K * sqrt(temperature_K) / (temperature_K + 110.4);
}

double air_conductivity_W_m_K(double temperature_K) {
    return 2.64638e-3 * temperature_K * sqrt(temperature_K) /
           (temperature_K + 245.4 * pow(10, -12 / temperature_K));
}

struct film film_of(double pressure_Pa, double temperature_K) {
    double viscosity = air_viscosity_Pa_s(temperature_K);
    double conductivity = air_conductivity_W_m_K(temperature_K);
    return (struct film){temperature_K, air_density_kg_m3(pressure_Pa, temperature_K), viscosity,
                         conductivity, viscosity * HEAT_CAPACITY_J_kg_K / conductivity};
}

double rayleigh(const struct film *film, double difference_K, double length_m) {
    double kinematic_m2_s = film->viscosity_Pa_s / film->density_kg_m3;
    double buoyancy_m_s2 = GRAVITY_m_s2 * difference_K / film->temperature_K;
    return buoyancy_m_s2 * length_m * length_m * length_m * film->prandtl /
           (kinematic_m2_s * kinematic_m2_s);
}

/* The bracket that stands in both forms of Churchill's. */
static double prandtl_bracket(double prandtl) {
    return 1 + pow(0.469 / prandtl, 9.0 / 16);
}

double nusselt_sphere_laminar(double rayleigh, double prandtl) {
    return 2 + 0.589 * sqrt(sqrt(rayleigh)) / pow(prandtl_bracket(prandtl), 4.0 / 9);
}

double nusselt_sphere(double rayleigh, double prandtl) {
    double turbulent = 7.44e-8 * rayleigh / pow(prandtl_bracket(prandtl), 16.0 / 9);
    double laminar = nusselt_sphere_laminar(rayleigh, prandtl) - 2;
    return 2 + laminar * pow(1 + turbulent, 1.0 / 12);
}

double nusselt_stream(double reynolds, double prandtl, double viscosity_ratio) {
    double root = cbrt(reynolds);
    return 2 + (0.4 * sqrt(reynolds) + 0.06 * root * root) * pow(prandtl, 0.4) *
                   sqrt(sqrt(viscosity_ratio));
}

double nusselt_inside_weak(double rayleigh) {
    return rayleigh <= 1e9 ? 0.59 * sqrt(sqrt(rayleigh)) : 0.13 * cbrt(rayleigh);
}

double nusselt_inside_strong(double rayleigh) {
    return rayleigh <= 1.35e8 ? 2.5 * (2 + 0.6 * sqrt(sqrt(rayleigh))) : 0.325 * cbrt(rayleigh);
}
