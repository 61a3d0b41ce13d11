/* test_walk_pictures.c - what the screens look like, on a canvas of any size. */
#include "screen/walking.h"

/* ---- one of each kind of picture ------------------------------------------------------------ */

static void at_shape(struct walk *walk) {
    press(walk, PRESS_PAGE_DOWN);
}

static void at_gores(struct walk *walk) {
    press_times(walk, PRESS_PAGE_DOWN, STEP_GORES);
}

static void at_cloth(struct walk *walk) {
    press_times(walk, PRESS_PAGE_DOWN, STEP_CLOTH);
}

static void at_flight(struct walk *walk) {
    go_to(walk, "air.inside");
}

static void at_paper(struct walk *walk) {
    press_times(walk, PRESS_PAGE_DOWN, STEP_PAPER);
}

static void at_style(struct walk *walk) {
    go_to(walk, "gores.style");
}

static void at_help(struct walk *walk) {
    press(walk, '?');
}

static void finding(struct walk *walk) {
    press(walk, '/');
    type(walk, "row");
}

static void among_starters(struct walk *walk) {
    press(walk, 'n');
}

static void mistyped(struct walk *walk) {
    go_to(walk, "size.volume");
    type(walk, "15 kg");
    press(walk, PRESS_ENTER);
}

static void about_to_leave(struct walk *walk) {
    set_value(walk, "gores.count", "14");
    press(walk, 'q');
}

static void at_bench(struct walk *walk) {
    press(walk, 'b');
    press(walk, PRESS_ENTER);
}

static void at_overview(struct walk *walk) {
    at_bench(walk);
    press(walk, 'o');
}

static void about_to_save(struct walk *walk) {
    press(walk, 's');
}

static void at_section(struct walk *walk) {
    go_to(walk, "gores.count");
    press_times(walk, 'v', 3);
}

static void at_flight_page(struct walk *walk) {
    press(walk, 'p');
}

static void at_styles_page(struct walk *walk) {
    press(walk, 'w');
}

static void in_three_colours(struct walk *walk) {
    set_value(walk, "colours.cloths", "white, deep red, blue");
}

static void in_three_colours_from_the_side(struct walk *walk) {
    in_three_colours(walk);
    press_times(walk, PRESS_RIGHT, 2);
    press(walk, 'v');
    assert_int_equal(walk->view[STEP_COLOURS], PREVIEW_SIDE);
}

static void in_more_colours_than_fit(struct walk *walk) {
    set_value(walk, "gores.count", "64");
    set_value(walk, "gores.style", "half-gore");
    set_value(walk, "colours.cloths", "white, red, blue, black, green, yellow, brown, grey");
    set_value(walk, "colours.fill", "scheme");
    set_value(walk, "colours.scheme_right", "R");
    press(walk, '>');
}

static void in_a_colour_that_weighs_too_much(struct walk *walk) {
    set_value(walk, "colours.cloths", "white, deep red / 1.2 kg");
}

static const struct {
    const char *golden; /* name of its golden pictures; NULL: none */
    void (*go)(struct walk *walk);
} pictures[] = {
    {"size", NULL},
    {"shape", at_shape},
    {"gores", at_gores},
    {"cloth", at_cloth},
    {"paper", at_paper},
    {"flight", at_flight},
    {"style", at_style},
    {NULL, at_help},
    {"find", finding},
    {NULL, among_starters},
    {"wrong", mistyped},
    {NULL, about_to_leave},
    {"bench", at_bench},
    {NULL, at_overview},
    {NULL, about_to_save},
    {NULL, at_section},
    {"page", at_flight_page},
    {NULL, at_styles_page},
    {"colours", in_three_colours},
    {"colours-side", in_three_colours_from_the_side},
    {"colours-window", in_more_colours_than_fit},
    {"colours-wrong", in_a_colour_that_weighs_too_much},
};

static struct walk *walk_at(size_t picture, void **state) {
    in_scratch_folder(state);
    struct walk *walk = begin(NULL);
    if (pictures[picture].go != NULL)
        pictures[picture].go(walk);
    return walk;
}

static void every_picture_stays_on_a_canvas_of_any_size(void **state) {
    const size_t columns[] = {1, 2, 7, 40, 79, 80, 81, 100, 132, 200};
    const size_t rows[] = {1, 2, 5, 23, 24, 25, 30, 43, 60};
    for (size_t number = 0; number < COUNT_OF(pictures); number++) {
        struct walk *walk = walk_at(number, state);
        for (size_t i = 0; i < COUNT_OF(columns); i++)
            for (size_t j = 0; j < COUNT_OF(rows); j++)
                draw_guarded(walk, columns[i], rows[j]);
        walk_free(walk);
    }
}

static void a_window_too_small_says_so_and_keys_still_work(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    struct text text = picture(walk, 79, 24);
    assert_non_null(strstr(text.bytes, "make the window larger (80x24)"));
    text_free(&text);
    set_value(walk, "gores.count", "14");
    assert_int_equal(walk->session->design.gores.count, 14);
    walk_free(walk);
}

static void the_line_of_keys_fits_and_names_help_and_quit(void **state) {
    (void)state;
    struct walk *walk = begin(NULL);
    const char *const wanted[] = {"Enter go on", "Bksp back", "u undo",
                                  "s save",      "? help",    "q quit"};
    for (size_t i = 0; i < COUNT_OF(wanted); i++)
        assert_shown(walk, wanted[i]);
    walk_free(walk);
}

/* The glyphs, and below them the kind of each cell as a letter: what colours and looks are
 * made from. */
static struct text golden_text(const struct walk *walk, size_t columns, size_t rows) {
    static const char kinds[] = ".sdtTLVC>hkwe!m";
    struct canvas canvas = {columns, rows, malloc(columns * rows * sizeof(struct cell))};
    struct text text = {0};
    assert_non_null(canvas.cell);
    assert_int_equal(sizeof kinds - 1, CELL_KIND_COUNT);
    walk_draw(walk, &canvas);
    canvas_write(&canvas, &text);
    for (size_t i = 0; i < columns * rows; i++) {
        text_add_bytes(&text, &kinds[canvas.cell[i].kind], 1);
        if (i % columns == columns - 1)
            text_add(&text, "\n");
    }
    free(canvas.cell);
    return text;
}

static void compare_golden(const char *name, const struct text *got) {
    char path[1280];
    snprintf(path, sizeof path, "%s/tests/golden/screens/%s", top_folder, name);
    const char *mode = getenv("GOLDEN");
    if (mode != NULL && strcmp(mode, "write") == 0) {
        FILE *file = fopen(path, "w");
        assert_non_null(file);
        fputs(got->bytes, file);
        fclose(file);
        return;
    }
    struct text want = {0};
    assert_int_equal(file_read(path, 1 << 20, &want), 0);
    assert_string_equal(got->bytes, want.bytes);
    text_free(&want);
}

static void screens_look_as_they_did(void **state) {
    static const size_t sizes[][2] = {{80, 24}, {100, 30}, {132, 43}};
    for (size_t i = 0; i < COUNT_OF(pictures); i++) {
        if (pictures[i].golden == NULL)
            continue;
        struct walk *walk = walk_at(i, state);
        for (size_t j = 0; j < COUNT_OF(sizes); j++) {
            char name[64];
            struct text text = golden_text(walk, sizes[j][0], sizes[j][1]);
            snprintf(name, sizeof name, "%s-%zux%zu.txt", pictures[i].golden, sizes[j][0],
                     sizes[j][1]);
            compare_golden(name, &text);
            text_free(&text);
        }
        walk_free(walk);
    }
}

int main(void) {
    if (!keep_apart())
        return 1;
    const struct CMUnitTest tests[] = {
        IN_FOLDER(every_picture_stays_on_a_canvas_of_any_size),
        IN_FOLDER(a_window_too_small_says_so_and_keys_still_work),
        IN_FOLDER(the_line_of_keys_fits_and_names_help_and_quit),
        IN_FOLDER(screens_look_as_they_did),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
