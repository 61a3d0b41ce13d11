/* materials.c - what to buy, and what it costs. */
#include <math.h>

#include "gorewright/cutting.h"
#include "gorewright/flight.h"

static void add(struct materials *materials, struct material item) {
    materials->item[materials->count++] = item;
    if (item.price > 0) {
        materials->cost += item.bought * item.price;
        materials->priced++;
    }
}

/* In whole steps of sale; a length that is one of them but for noise stays. */
static double in_steps(double length_m, double step_m) {
    return ceil(length_m / step_m - 1e-6) * step_m;
}

static void add_notions(const struct design *sized, const struct envelope *envelope,
                        struct materials *materials) {
    struct notions notions = notions_of(sized, envelope);
    double tape_m = (double)notions.tapes * notions.tape_each_m + notions.mouth_band_m;
    double thread_m = notions.thread_m * (1 + sized->thread.waste);
    double wire_m = (double)notions.wires * notions.wire_each_m;
    add(materials, (struct material){.kind = MATERIAL_TAPE,
                                     .needed_m = tape_m,
                                     .bought = in_steps(tape_m, sized->buying.tape_step_m),
                                     .price = sized->buying.tape_price_m});
    add(materials, (struct material){.kind = MATERIAL_THREAD,
                                     .needed_m = thread_m,
                                     .bought = ceil(thread_m / sized->buying.reel_m - 1e-6),
                                     .price = sized->buying.reel_price});
    add(materials, (struct material){.kind = MATERIAL_WIRE,
                                     .needed_m = wire_m,
                                     .bought = in_steps(wire_m, sized->buying.wire_step_m),
                                     .price = sized->buying.wire_price_m});
}

struct materials materials_of(const struct design *sized, const struct envelope *envelope,
                              const struct cutting *cutting) {
    struct materials materials = {0};
    for (size_t i = 0; i < cutting->cloths; i++) {
        const struct cutting_cloth *cloth = &cutting->cloth[i];
        add(&materials, (struct material){.kind = MATERIAL_CLOTH,
                                          .cloth = i,
                                          .needed_m = cutting_used_m(cloth),
                                          .bought = cutting_bought_m(sized, cloth),
                                          .price = cloth->colour.price_m});
    }
    add_notions(sized, envelope, &materials);
    return materials;
}
