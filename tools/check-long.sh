# The long half of check: other compilers, sanitizers, fuzzing, browsers.
# Sourced by check; every step counts.
