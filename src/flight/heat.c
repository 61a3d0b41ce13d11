/* heat.c - where the heat goes, and how long the fuel lasts. */
#include "flight/heat.h"

#include <math.h>

#include "flight/propane.h"

/* ---- the cloth between two airs ---------------------------------------------- */

struct balance {
    const struct warm_sphere *sphere;
    double inside_K;
    nusselt_inside *inside;
    struct film stream; /* as warm as the air outside */
    bool beyond;
};

/* h of the stream beyond that of still conduction [W/(m2 K)]. */
static double stream_W_m2_K(struct balance *b, double cloth_K) {
    const struct warm_sphere *sphere = b->sphere;
    const struct film *stream = &b->stream;
    if (sphere->wind_m_s <= 0)
        return 0;
    double reynolds =
        sphere->wind_m_s * sphere->diameter_m * stream->density_kg_m3 / stream->viscosity_Pa_s;
    double ratio = stream->viscosity_Pa_s / air_viscosity_Pa_s(cloth_K);
    b->beyond |= reynolds > REYNOLDS_MOST;
    return (nusselt_stream(reynolds, stream->prandtl, ratio) - 2) * stream->conductivity_W_m_K /
           sphere->diameter_m;
}

/* h of free convection, inside or outside, with `nusselt` to be chosen by `inside` or not. */
static double free_W_m2_K(struct balance *b, double air_K, double cloth_K, bool inside) {
    const struct warm_sphere *sphere = b->sphere;
    struct film film = film_of(sphere->pressure_Pa, 0.5 * (air_K + cloth_K));
    double number = rayleigh(&film, fabs(air_K - cloth_K), sphere->diameter_m);
    double nusselt = inside ? b->inside(number) : nusselt_sphere(number, film.prandtl);
    b->beyond |= number > RAYLEIGH_MOST;
    return nusselt * film.conductivity_W_m_K / sphere->diameter_m;
}

/* What leaves the cloth, which is warmer than the air outside by warmer_K [W/m2]. */
static double leaving_W_m2(struct balance *b, double warmer_K) {
    double outside_K = b->sphere->outside_K, cloth_K = outside_K + warmer_K;
    double still = free_W_m2_K(b, outside_K, cloth_K, false), wind = stream_W_m2_K(b, cloth_K);
    double greater = fmax(still, wind), lesser = fmin(still, wind) / greater;
    double convection = greater * sqrt(sqrt(1 + pow(lesser, 4)));
    double radiation = b->sphere->emissivity * STEFAN_BOLTZMANN_W_m2_K4 * (cloth_K + outside_K) *
                       (cloth_K * cloth_K + outside_K * outside_K);
    return (convection + radiation) * warmer_K;
}

/* How much more leaves the cloth than reaches it; `share` is how far it stands from the
 * temperature outside to that inside. */
static double excess_W_m2(double share, void *context) {
    struct balance *b = context;
    double whole_K = b->inside_K - b->sphere->outside_K;
    double cloth_K = b->sphere->outside_K + share * whole_K;
    return leaving_W_m2(b, share * whole_K) -
           free_W_m2_K(b, b->inside_K, cloth_K, true) * (1 - share) * whole_K;
}

struct heat_balance heat_balance(const struct warm_sphere *sphere, double inside_K,
                                 nusselt_inside *inside) {
    double outside_K = sphere->outside_K, share;
    struct balance b = {.sphere = sphere, .inside_K = inside_K, .inside = inside};
    if (!(inside_K > outside_K))
        return (struct heat_balance){outside_K, 0, false};
    b.stream = film_of(sphere->pressure_Pa, outside_K);
    rising_root(excess_W_m2, &b, 0, 1, 0.45, 0.05, 1e-10, &share);
    b.beyond = false; /* what the search passed by does not count */
    double cloth_K = outside_K + share * (inside_K - outside_K);
    free_W_m2_K(&b, inside_K, cloth_K, true);
    /* A step in a correlation inside may leave the two sides apart; outside has none. */
    double flux = leaving_W_m2(&b, share * (inside_K - outside_K));
    return (struct heat_balance){cloth_K, flux, b.beyond};
}

/* ---- heating up ---------------------------------------------------------------- */

struct spread heat_up_energy_J(double pressure_Pa, double volume_m3, double from_K, double to_K) {
    double whole_J = HEAT_CAPACITY_J_kg_K / GAS_J_kg_K * pressure_Pa * volume_m3;
    if (!(to_K > from_K))
        return (struct spread){0, 0};
    return (struct spread){whole_J * (1 - from_K / to_K), whole_J * log(to_K / from_K)};
}

/* Mean of a straight line's reciprocal is one over this mean of its ends. */
static double logarithmic_mean(double one, double other) {
    double ratio = other / one;
    if (fabs(ratio - 1) < 1e-6)
        return 0.5 * (one + other);
    return (other - one) / log(ratio);
}

double heat_up_time_s(const double *energy_J, const double *left_W, size_t steps) {
    double time_s = 0;
    for (size_t i = 0; i <= steps; i++)
        if (!(left_W[i] > 0))
            return HUGE_VAL;
    for (size_t i = 0; i < steps; i++)
        time_s += (energy_J[i + 1] - energy_J[i]) / logarithmic_mean(left_W[i], left_W[i + 1]);
    return time_s;
}

/* ---- one course: everything by one correlation inside, one end of the spread ------ */

enum { HEAT_UP_STEPS = 24 };

struct task {
    const struct design *design;
    struct warm_sphere sphere;
    double volume_m3, area_m2; /* the area that loses heat */
    double cloth_J_K;          /* heat that warms the cloth by a degree */
    double at_K;
    bool flies, no_gas;
};

/* Air that has not been warmed spills, or air as warm as that inside and the cloth warmed too. */
enum end { EASY, HARD };

struct course {
    struct heat_balance balance;
    double flux_W_m2, hold_W, fuel_kg_h, heat_up_J, heat_up_s, minutes;
};

static double flux_W_m2(const struct task *task, const struct heat_balance *balance) {
    return balance->flux_W_m2 * task->design->heat.loss_factor;
}

static double heat_up_J(const struct task *task, enum end end, double inside_K, double cloth_K) {
    double outside_K = task->sphere.outside_K;
    struct spread air_J =
        heat_up_energy_J(task->sphere.pressure_Pa, task->volume_m3, outside_K, inside_K);
    return end == EASY ? air_J.low : air_J.high + task->cloth_J_K * (cloth_K - outside_K);
}

static double course_heat_up_s(const struct task *task, nusselt_inside *inside, enum end end) {
    const struct design *design = task->design;
    double left_W[HEAT_UP_STEPS + 1], energy_J[HEAT_UP_STEPS + 1];
    double given_W = design->heat.burner_W * design->heat.burner_efficiency;
    double outside_K = task->sphere.outside_K;
    if (!(task->at_K > outside_K))
        return 0;
    if (task->no_gas)
        return HUGE_VAL;
    for (size_t i = 0; i <= HEAT_UP_STEPS; i++) {
        double step = (double)i / HEAT_UP_STEPS;
        double inside_K = outside_K * pow(task->at_K / outside_K, step);
        struct heat_balance balance = heat_balance(&task->sphere, inside_K, inside);
        left_W[i] = given_W - flux_W_m2(task, &balance) * task->area_m2;
        energy_J[i] = heat_up_J(task, end, inside_K, balance.cloth_K);
    }
    return heat_up_time_s(energy_J, left_W, HEAT_UP_STEPS);
}

static double flight_minutes(const struct task *task, const struct course *course) {
    double burner_kg_s = task->design->heat.burner_W / PROPANE_HEAT_J_kg;
    double left_kg = task->design->rig.fuel_kg - course->heat_up_s * burner_kg_s;
    if (!task->flies || !(left_kg > 0))
        return 0;
    return 60 * left_kg / course->fuel_kg_h;
}

static struct course course_of(const struct task *task, nusselt_inside *inside, enum end end) {
    struct course course = {.balance = heat_balance(&task->sphere, task->at_K, inside)};
    course.flux_W_m2 = flux_W_m2(task, &course.balance);
    course.hold_W = course.flux_W_m2 * task->area_m2 / task->design->heat.burner_efficiency;
    course.fuel_kg_h = fuel_rate_kg_h(course.hold_W, PROPANE_HEAT_J_kg);
    course.heat_up_J = heat_up_J(task, end, task->at_K, course.balance.cloth_K);
    course.heat_up_s = course_heat_up_s(task, inside, end);
    course.minutes = flight_minutes(task, &course);
    return course;
}

/* ---- all of it ------------------------------------------------------------------- */

static struct task task_of(const struct design *sized, const struct envelope *envelope,
                           const struct lift *lift) {
    const struct built *built = &envelope->built;
    struct task task = {.design = sized, .flies = lift->floats};
    task.sphere = (struct warm_sphere){.diameter_m = cbrt(6 * built->volume_m3 / PI),
                                       .emissivity = sized->cloth.emissivity,
                                       .outside_K = lift->outside.temperature_K,
                                       .pressure_Pa = lift->outside.pressure_Pa,
                                       .wind_m_s = sized->heat.relative_wind_m_s};
    task.volume_m3 = built->volume_m3;
    task.cloth_J_K = built->cloth_mass_kg * NYLON_HEAT_J_kg_K;
    task.area_m2 =
        built->sewn_area_m2 + 0.25 * PI * built->crown_diameter_m * built->crown_diameter_m;
    task.at_K = lift->floats ? lift->needed_K : lift->inside_K;
    task.no_gas = propane_pressure_Pa(lift->outside.temperature_K) <= lift->outside.pressure_Pa;
    return task;
}

struct heat heat_of(const struct design *sized, const struct envelope *envelope,
                    const struct lift *lift) {
    struct task task = task_of(sized, envelope, lift);
    struct course weak = course_of(&task, nusselt_inside_weak, EASY);
    struct course strong = course_of(&task, nusselt_inside_strong, HARD);
    return (struct heat){
        .at_K = task.at_K,
        .cloth_K = {weak.balance.cloth_K, strong.balance.cloth_K},
        .flux_W_m2 = {weak.flux_W_m2, strong.flux_W_m2},
        .hold_W = {weak.hold_W, strong.hold_W},
        .fuel_kg_h = {weak.fuel_kg_h, strong.fuel_kg_h},
        .minutes = {strong.minutes, weak.minutes},
        .heat_up_J = {weak.heat_up_J, strong.heat_up_J},
        .heat_up_min = {weak.heat_up_s / 60, strong.heat_up_s / 60},
        .vapour_pressure_Pa = propane_pressure_Pa(lift->outside.temperature_K),
        .no_gas = task.no_gas,
        .beyond = weak.balance.beyond || strong.balance.beyond,
    };
}
