# Read by the launchers beside it: sets $python to a Python of 3.11 or newer, or says plainly that there is none.
python=
for name in python3 python3.14 python3.13 python3.12 python3.11; do
    if "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
        python=$name
        break
    fi
done
if [ -z "$python" ]; then
    echo "Python 3.11 or newer is needed (on Debian and Ubuntu: apt-get install python3 python3-venv)." >&2
    exit 1
fi
