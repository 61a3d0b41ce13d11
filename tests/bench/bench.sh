#!/bin/sh
# bench.sh - one table of what the program costs, each line with its limit.
#
# Given: GOREWRIGHT, the program; PROGRAMS, the bench programs built beside it: `peak`, `press`,
# and others, each with a table and a verdict of its own.  Fails when any limit is passed.
#
# Instructions are counted by valgrind's callgrind over the whole process, the dynamic
# linker included, so they do not depend on the machine's speed or load.  Memory is the peak
# resident set of the plain process (ru_maxrss of wait4).
set -eu
export LC_ALL=C

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
over=0
table=$work/table
: >"$table"
peak=
press=
others=
for program in $PROGRAMS; do
    case $program in
    */peak) peak=$program ;;
    */press) press=$program ;;
    *) others="$others $program" ;;
    esac
done

row() { # what measured unit limit [time]
    printf '%s\t%s\t%s\t%s\t%s\n' "$1" "$2" "$3" "$4" "${5:-}" >>"$table"
}

instructions_of() { # program arguments...
    valgrind --tool=callgrind --callgrind-out-file=/dev/null "$@" \
        2>"$work/valgrind" >/dev/null
    awk '/Collected/ { print $4; found = 1 } END { exit !found }' "$work/valgrind"
}

instructions() { # arguments of the program
    instructions_of "$GOREWRIGHT" "$@"
}

milliseconds() { # arguments of the program
    "$peak" "$GOREWRIGHT" "$@" | awk '{ print $2 " ms" }'
}

millions() {
    awk -v n="$1" 'BEGIN { printf "%.2f", n / 1e6 }'
}

count() { # what limit[M] arguments...
    what=$1
    limit=$2
    shift 2
    row "$what" "$(millions "$(instructions "$@")")" 'M instructions' "$limit" \
        "$(milliseconds "$@")"
}

memory() { # what limit[kB] arguments...
    what=$1
    limit=$2
    shift 2
    row "$what" "$("$peak" "$GOREWRIGHT" "$@" | cut -d' ' -f1)" kB "$limit" "$(milliseconds "$@")"
}

# The picture drawn after the last key, those before it left out.
pressed() { # what limit[M] design last-key keys-before...
    what=$1
    limit=$2
    file=$3
    last=$4
    shift 4
    row "$what" "$(millions $(($(instructions_of "$press" "$file" "$@" "$last") - \
        $(instructions_of "$press" "$file" "$@"))))" 'M instructions' "$limit" "$(
        "$peak" "$press" "$file" "$@" "$last" | awk '{ print $2 " ms" }')"
}

design() { # file gores rows [more lines]
    printf 'format = 1;\ngores: { count = %s; %s };\nrows: { count = %s; };\n' "$2" "${4:-}" "$3" \
        >"$1"
}

# ---- the starter -------------------------------------------------------------

starter=$work/starter
"$GOREWRIGHT" starter >"$starter"
count 'figures of the starter' 25 figures "$starter"
count 'templates of the starter, A4' 60 templates "$starter"
count 'sheets of the starter' - sheets "$starter"
count 'check of the starter' - check "$starter"
count 'flight of the starter' 30 flight "$starter"
count 'compare of the starter' - compare "$starter"
sed 's/by = "volume"/by = "load"/' "$starter" >"$work/by-load"
count 'flight of the starter, sized by its load' 30 flight "$work/by-load"
"$GOREWRIGHT" templates "$starter" >"$work/ps"
row 'size of a page of templates, on average' "$(awk '
    /^%%Pages: [0-9]/ { pages = $2 }
    { bytes += length($0) + 1 }
    END { printf "%.0f", bytes / pages }' "$work/ps")" bytes 4096
memory 'peak memory, templates of the starter' 8192 templates "$starter"

# ---- the screens ---------------------------------------------------------------
# Without a terminal: what the terminal itself takes is not in here.

row 'first screen of the starter' "$(millions "$(instructions_of "$press" "$starter")")" \
    'M instructions' 40 "$("$peak" "$press" "$starter" | awk '{ print $2 " ms" }')"
pressed 'a changed size redrawn' 20 "$starter" right down
pressed 'the step Flight shown' 20 "$starter" page-down page-down page-down page-down
pressed 'a hotter inside redrawn, in Flight' 20 "$starter" right page-down page-down page-down \
    page-down
pressed 'the same, sized by its load' 20 "$work/by-load" right page-down page-down page-down \
    page-down
largest=
most=0
for sample in samples/*.cfg; do
    kB=$("$peak" "$press" "$sample" page-down page-down page-down page-down page-down | cut -d' ' -f1)
    row "first screen of $(basename "$sample" .cfg)" \
        "$(millions "$(instructions_of "$press" "$sample")")" 'M instructions' -
    if [ "$kB" -gt "$most" ]; then
        most=$kB
        largest=$sample
    fi
done
row "peak memory, all steps of $(basename "$largest" .cfg)" "$most" kB 10240

# ---- growth ------------------------------------------------------------------
# A design with all three styles has four distinct pieces a row.  What a piece costs, to lay
# out and to draw, must not grow with their number.

mix='mix = ("faceted", "half-gore", "billowed", "half-gore");'
for size in 16x10 32x20 64x40; do
    design "$work/$size" "${size%x*}" "${size#*x}" "$mix"
    count "templates, all styles, $size" - templates "$work/$size"
    count "outlines, all styles, $size" - outlines "$work/$size"
    memory "peak memory, templates, all styles, $size" - templates "$work/$size"
    for command in templates outlines; do
        instructions "$command" "$work/$size" >"$work/$command.$size"
    done
done
for command in templates outlines; do
    for size in 32x20 64x40; do
        row "$command: a piece in $size over one in 16x10" "$(
            awk -v rows="${size#*x}" '
                FNR == 1 && NR == 1 { small = $1 / (4 * 10) }
                NR == 2 { printf "%.3f", $1 / (4 * rows) / small }' \
                "$work/$command.16x10" "$work/$command.$size"
        )" times 1.10
    done
done

# ---- the table -------------------------------------------------------------------

awk -F '\t' '
    BEGIN { printf "%-46s %12s %-15s %8s  %-9s %s\n", "what", "measured", "", "limit", "time",
                   "verdict" }
    {
        verdict = $4 == "-" ? "-" : $2 + 0 <= $4 + 0 ? "fine" : "TOO MUCH"
        if (verdict == "TOO MUCH")
            over++
        printf "%-46s %12s %-15s %8s  %-9s %s\n", $1, $2, $3, $4, $5, verdict
    }
    END { exit over > 0 }' "$table" || over=1

# ---- programs with tables of their own ----------------------------------------------

for program in $others; do
    echo
    "$program" || over=1
done
exit $over
