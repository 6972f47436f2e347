
import os, time
told = time.time
def off():
    with open(os.environ["CLOCK_OFF"]) as file:
        return float(file.read() or 0)
time.time = lambda: told() + off()
time.time_ns = lambda: int(time.time() * 1e9)
