#!/bin/sh
# memory.sh - every command on the starter and each sample given, under valgrind's memcheck:
# no wrong access, nothing lost.  Given: GOREWRIGHT, the program.
set -eu
export LC_ALL=C

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"$GOREWRIGHT" starter >"$work/starter"
echo 'format = 1; gores: { count = 400; }; nmae = 3;' >"$work/wrong"
echo 'format = 1; name = ' >"$work/broken"

watched() { # wanted status, arguments
    want=$1
    shift
    status=0
    valgrind -q --error-exitcode=99 --leak-check=full --show-leak-kinds=all \
        --errors-for-leak-kinds=all "$GOREWRIGHT" "$@" >/dev/null 2>"$work/messages" || status=$?
    if [ "$status" -ne "$want" ]; then
        echo "gorewright $*: status $status, want $want"
        cat "$work/messages"
        exit 1
    fi
    runs=$((runs + 1))
}

runs=0
for design in "$work/starter" "$@"; do
    for command in check figures flight compare stations outlines sheets templates cutlist; do
        watched 0 "$command" "$design"
    done
    watched 0 templates -o "$work/out" --paper A3 "$design"
    cp "$design" "$work/cloth.cfg"
    rm -f "$work/cloth.cfg.cutting"
    watched 0 layout --effort 1 "$work/cloth.cfg"
    watched 0 layout --form postscript "$work/cloth.cfg"
    watched 0 materials "$work/cloth.cfg"
done
watched 0 starter
watched 0 --help
watched 2 figures
watched 1 check "$work/wrong" "$work/broken" "$work/missing"
watched 1 sheets --piece none "$work/starter"
watched 2 templates --measured 10x10 "$work/starter"
watched 1 figures -o "$work" "$work/starter"
echo 'cloth W 2' >>"$work/cloth.cfg.cutting"
watched 1 layout "$work/cloth.cfg"
echo "$runs runs, nothing wrong"
