/* test_general_library.c - the room's own numerics against a general library.
 * Source of every expected figure: the GNU Scientific Library, working on the same equations
 * by other methods. */
#include "support.h"

#include <math.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_odeiv2.h>
#include <gsl/gsl_roots.h>

#include "geometry/natural.h"
#include "geometry/quadrature.h"
#include "gorewright/base.h"
#include "geometry/table.h"

/* ---- the meridian ------------------------------------------------------ */

/* The equations of natural.h with b = 1; y: r, z, slope, tension, area, volume. */
static int equilibrium(double s, const double y[], double rate[], void *context) {
    double w = *(const double *)context, sine = sin(y[2]), cosine = cos(y[2]);
    (void)s;
    rate[0] = sine;
    rate[1] = cosine;
    rate[2] = -2 * PI * y[0] * (y[1] + w * sine) / y[3];
    rate[3] = 2 * PI * y[0] * w * cosine;
    rate[4] = 2 * PI * y[0];
    rate[5] = PI * y[0] * y[0] * cosine;
    return GSL_SUCCESS;
}

static void check_state(struct meridian_state got, const double y[]) {
    assert_close(got.r, y[0], 1e-11, 0);
    assert_close(got.z, y[1], 1e-11, 0);
    assert_close(got.slope, y[2], 1e-11, 0);
    assert_close(got.tension, y[3], 0, 1e-11);
    assert_close(got.area, y[4], 1e-11, 1e-11);
    assert_close(got.volume, y[5], 1e-11, 1e-11);
}

/* Solve our way, then follow by the library from the same first slope. */
static void compare_meridian(double mouth, double omega) {
    enum { PLACES = 40 };
    static struct meridian meridian;
    double theta_0, s = 0;
    assert_int_equal(natural_solve(mouth, omega, 0, &meridian, &theta_0), NATURAL_FINE);
    double y[] = {mouth, 0, theta_0, 1 / cos(theta_0), 0, 0};
    gsl_odeiv2_system system = {equilibrium, NULL, 6, &omega};
    gsl_odeiv2_driver *driver =
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 1e-3, 1e-14, 1e-14);
    for (int i = 1; i <= PLACES; i++) {
        double to = meridian.length * i / PLACES;
        assert_int_equal(gsl_odeiv2_driver_apply(driver, &s, to, y), GSL_SUCCESS);
        check_state(meridian_at(&meridian, to), y);
    }
    gsl_odeiv2_driver_free(driver);
    assert_close(y[0], 0, 1e-11, 0); /* closed at the crown, and level there */
    assert_close(y[2], -PI / 2, 1e-11, 0);
}

static void meridians_agree_all_along(void **state) {
    (void)state;
    static const double sigma[] = {0, 0.1, 0.2, 0.4}, mouth[] = {0, 0.02, 0.13, 0.3};
    for (size_t i = 0; i < COUNT_OF(sigma); i++)
        for (size_t j = 0; j < COUNT_OF(mouth); j++)
            compare_meridian(mouth[j], sigma[i] / cbrt(2 * PI));
}

/* ---- quadrature -------------------------------------------------------- */

static void quadrature_nodes_and_weights_agree(void **state) {
    (void)state;
    gsl_integration_glfixed_table *table = gsl_integration_glfixed_table_alloc(GAUSS_POINTS);
    assert_non_null(table);
    for (size_t i = 0; i < GAUSS_POINTS; i++) {
        double node, weight;
        gsl_integration_glfixed_point(0, 1, i, &node, &weight, table);
        assert_close(gauss_node[i], node, 2e-16, 0);
        assert_close(gauss_weight[i], weight, 2e-16, 0);
    }
    gsl_integration_glfixed_table_free(table);
}

/* ---- the table's curve ------------------------------------------------- */

/* A measured envelope: stations at uneven distances, the first at height 0. */
static const struct point_list measured = {9,
                                           {{0.30, 0.00},
                                            {0.52, 0.31},
                                            {0.83, 0.78},
                                            {1.18, 1.45},
                                            {1.36, 2.02},
                                            {1.33, 2.60},
                                            {1.02, 3.21},
                                            {0.55, 3.52},
                                            {0.20, 3.60}}};

static double chord_length(size_t i) {
    double t = 0;
    for (size_t j = 1; j <= i; j++)
        t += hypot(measured.value[j].r_m - measured.value[j - 1].r_m,
                   measured.value[j].z_m - measured.value[j - 1].z_m);
    return t;
}

/* One equation: derivative `order` of piece `piece` at x, times `sign`, in a row. */
static void put(gsl_matrix *matrix, size_t row, size_t piece, int order, double x, double sign) {
    for (int power = order; power < 4; power++) {
        double factor = sign;
        for (int k = 0; k < order; k++)
            factor *= power - k;
        gsl_matrix_set(matrix, row, 4 * piece + (size_t)power, factor * pow(x, power - order));
    }
}

/* The conditions that define the curve, one equation each: through every station, slope and
 * bend continuous, and no knot at the first and the last inner station. */
static void pose(gsl_matrix *matrix, gsl_vector *right, int member) {
    size_t pieces = measured.count - 1, row = 0;
    for (size_t i = 0; i < pieces; i++) {
        double h = chord_length(i + 1) - chord_length(i);
        for (size_t end = 0; end < 2; end++) {
            double r = measured.value[i + end].r_m, z = measured.value[i + end].z_m;
            gsl_vector_set(right, row, member == 0 ? r : z);
            put(matrix, row++, i, 0, end == 0 ? 0 : h, 1);
        }
        for (int order = 1; i + 1 < pieces && order <= 3; order++) {
            if (order == 3 && i != 0 && i + 2 != pieces)
                continue;
            put(matrix, row, i, order, h, 1);
            put(matrix, row++, i + 1, order, 0, -1);
        }
    }
    assert_int_equal(row, 4 * pieces);
}

static void compare_coefficients(const struct spline *spline, int member) {
    size_t unknowns = 4 * (measured.count - 1);
    gsl_matrix *matrix = gsl_matrix_calloc(unknowns, unknowns);
    gsl_vector *right = gsl_vector_calloc(unknowns), *want = gsl_vector_alloc(unknowns);
    gsl_permutation *order = gsl_permutation_alloc(unknowns);
    int sign;
    pose(matrix, right, member);
    gsl_linalg_LU_decomp(matrix, order, &sign);
    gsl_linalg_LU_solve(matrix, order, right, want);
    for (size_t i = 0; i < unknowns; i++) {
        const struct spline_piece *piece = &spline->piece[i / 4];
        double got = member == 0 ? piece->r[i % 4] : piece->z[i % 4];
        assert_close(got, gsl_vector_get(want, i), 1e-11, 1e-11);
    }
    gsl_permutation_free(order);
    gsl_vector_free(want);
    gsl_vector_free(right);
    gsl_matrix_free(matrix);
}

static void the_curve_meets_the_conditions_that_define_it(void **state) {
    (void)state;
    static struct spline spline;
    spline_through(&measured, JOIN_SMOOTH, &spline);
    assert_int_equal(spline.pieces, measured.count - 1);
    compare_coefficients(&spline, 0);
    compare_coefficients(&spline, 1);
}

static double speed(double x, void *context) {
    const struct spline_piece *piece = context;
    double dr = piece->r[1] + 2 * piece->r[2] * x + 3 * piece->r[3] * x * x;
    double dz = piece->z[1] + 2 * piece->z[2] * x + 3 * piece->z[3] * x * x;
    return sqrt(dr * dr + dz * dz);
}

static double library_arc(struct spline_piece *piece, double x) {
    gsl_integration_workspace *workspace = gsl_integration_workspace_alloc(200);
    gsl_function function = {speed, piece};
    double arc = 0, error;
    int status = gsl_integration_qag(&function, 0, x, 1e-14, 1e-13, 200, GSL_INTEG_GAUSS61,
                                     workspace, &arc, &error);
    gsl_integration_workspace_free(workspace);
    assert_int_equal(status, GSL_SUCCESS);
    return arc;
}

static void arc_length_agrees_piece_by_piece(void **state) {
    (void)state;
    static struct spline spline;
    spline_through(&measured, JOIN_SMOOTH, &spline);
    double sum = 0;
    for (size_t i = 0; i < spline.pieces; i++) {
        double width = chord_length(i + 1) - chord_length(i);
        assert_close(spline.piece[i].s, sum, 1e-11, 0);
        sum += library_arc(&spline.piece[i], width);
    }
    assert_close(spline.s_end, sum, 1e-11, 0);
}

/* A point asked for by its arc length lies where the library measures that length. */
static void a_point_lies_at_the_arc_length_asked_for(void **state) {
    (void)state;
    static struct spline spline;
    spline_through(&measured, JOIN_SMOOTH, &spline);
    for (size_t i = 0; i < spline.pieces; i++) {
        struct spline_piece *piece = &spline.piece[i];
        double width = chord_length(i + 1) - chord_length(i);
        for (int part = 1; part < 5; part++) {
            double x = width * part / 5, s = piece->s + library_arc(piece, x);
            struct spline_point got = spline_at(&spline, s);
            struct spline_point want = spline_piece_at(&spline, i, part / 5.0);
            assert_close(got.r, want.r, 1e-11, 0);
            assert_close(got.z, want.z, 1e-11, 0);
            assert_close(got.slope, want.slope, 1e-10, 0);
        }
    }
}

/* ---- roots ------------------------------------------------------------- */

/* Rising functions: gentle, steep on one side, flat at the zero. */
static double gentle(double x, void *context) {
    (void)context;
    return log(x) - 0.25;
}

static double steep(double x, void *context) {
    (void)context;
    return exp(8 * x) - 3000;
}

static double flat(double x, void *context) {
    (void)context;
    return pow(x - 1.37, 3);
}

static double library_root(double (*f)(double, void *), double low, double high) {
    gsl_function function = {f, NULL};
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    gsl_root_fsolver_set(solver, &function, low, high);
    for (int i = 0; i < 200; i++)
        gsl_root_fsolver_iterate(solver);
    double root = gsl_root_fsolver_root(solver);
    gsl_root_fsolver_free(solver);
    return root;
}

static void roots_agree(void **state) {
    (void)state;
    rising_function *const f[] = {gentle, steep, flat};
    static const double allowed[] = {1e-11, 1e-11, 1e-7};
    for (size_t i = 0; i < COUNT_OF(f); i++) {
        double root = 0;
        assert_true(rising_root(f[i], NULL, 0.1, 3, 0.7, 0.1, 1e-12, &root));
        assert_close(root, library_root(f[i], 0.1, 3), allowed[i], 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(meridians_agree_all_along),
        cmocka_unit_test(quadrature_nodes_and_weights_agree),
        cmocka_unit_test(the_curve_meets_the_conditions_that_define_it),
        cmocka_unit_test(arc_length_agrees_piece_by_piece),
        cmocka_unit_test(a_point_lies_at_the_arc_length_asked_for),
        cmocka_unit_test(roots_agree),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
