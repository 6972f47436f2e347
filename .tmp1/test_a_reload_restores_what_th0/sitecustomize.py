
import gc, os, pathlib, threading, time
def tell():
    while True:
        pathlib.Path(os.environ["GARBAGE"], str(os.getpid())).write_text(str(gc.isenabled()))
        time.sleep(0.05)
start = lambda: threading.Thread(target=tell, daemon=True).start()
os.register_at_fork(after_in_child=start)
