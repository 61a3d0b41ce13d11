#!/bin/sh
# coverage.sh - lines run by the tests, by source file.
# usage: coverage.sh BUILD SOURCE...
set -eu
build=$1
shift
for source in "$@"; do
    object=$build/${source#src/}
    gcov -n -o "${object%.c}.o" "$source" 2>/dev/null | awk -v want="$source" '
        $1 == "File" { file = $2; gsub("\047", "", file) }
        /^Lines executed/ && file == want {
            split($2, part, "[:%]")
            printf "%s %s %s\n", want, part[2], $NF
            exit # the line that follows is the sum over one file
        }'
done | awk '
    { printf "%6.1f %%  of %4d  %s\n", $2, $3, $1; run += $2 * $3 / 100; all += $3 }
    END { printf "%6.1f %%  of %4d  in all\n", all ? 100 * run / all : 0, all }'
