# Underlath: what a person types. Each recipe is one script; the scripts say what they need and install it.
#
#   make demo        build the command line and run the whole job on the sample houses
#   make test        every check, as the build machine runs it
#   make underlath   the optimised program without PDF pages; its path is the last line printed
#   make field       the same with the screens inside, for `underlath field`; its path is the last line printed
#   make app         the window program; its path is the last line printed
#   make bench       the speeds that are published, measured here
#   make torture     the long tests: killed while writing, full disk, every flipped bit
#   make clean-demo  take away what the demo made

MAKEFLAGS += --no-print-directory
SHELL := /bin/bash
.SILENT:
.DEFAULT_GOAL := help
.PHONY: help demo test underlath app field bench torture clean-demo

help:
	sed -n '3,10s/^#  *//p' Makefile

demo:
	scripts/demo.sh

test:
	scripts/test.sh

underlath:
	scripts/underlath.sh

app:
	scripts/app.sh

field:
	scripts/field.sh

bench:
	scripts/bench.sh

torture:
	scripts/torture.sh

clean-demo:
	rm -rf demo-made
