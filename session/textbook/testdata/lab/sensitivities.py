"""Makes sensitivities.csv: random expressions of a, b and c, their values and their
slopes by each, from differences of sixty digits. Needs Python with mpmath; run as
python3 sensitivities.py > sensitivities.csv"""
import random
import mpmath as mp

mp.mp.dps = 60
random.seed(14)
NAMES = ("a", "b", "c")
CALLS = {"√": mp.sqrt, "exp": mp.exp, "ln": mp.log, "sin": mp.sin, "cos": mp.cos,
         "tan": mp.tan, "atan": mp.atan, "sinh": mp.sinh, "cosh": mp.cosh, "tanh": mp.tanh}


def tree(depth):
    """An expression as text and as a function of the three values."""
    if depth == 0 or random.random() < 0.12:
        if random.random() < 0.15:
            n = random.choice(("2", "3", "0.5", "1.7"))
            return n, lambda v, n=n: mp.mpf(n)
        i = random.randrange(3)
        return NAMES[i], lambda v, i=i: v[i]
    kind = random.random()
    if kind < 0.3:
        name = random.choice(list(CALLS))
        text, f = tree(depth - 1)
        return f"{name}({text})", lambda v, g=CALLS[name], f=f: g(f(v))
    if kind < 0.42:
        n = random.choice((2, 3, -1, -2))
        text, f = tree(depth - 1)
        return f"({text})^{n}" if n > 0 else f"({text})^({n})", lambda v, f=f, n=n: f(v) ** n
    (s, f), (t, g) = tree(depth - 1), tree(depth - 1)
    op = random.choice("+-*/")
    of = {"+": lambda v: f(v) + g(v), "-": lambda v: f(v) - g(v),
          "*": lambda v: f(v) * g(v), "/": lambda v: f(v) / g(v)}[op]
    return f"({s}) {op} ({t})", of


print("# made by sensitivities.py with mpmath", mp.__version__)
print("expression,a,b,c,value,by_a,by_b,by_c")
made = 0
while made < 300:
    text, f = tree(random.randint(2, 5))
    at = [mp.mpf(random.randint(20, 299)) / 100 for _ in NAMES]
    try:
        value = f(at)
        slopes = []
        for i in range(3):
            h = mp.mpf(10) ** -20
            up, down = list(at), list(at)
            up[i] += h
            down[i] -= h
            slopes.append((f(up) - f(down)) / (2 * h))
    except (ZeroDivisionError, ValueError, OverflowError):
        continue
    plain = [value] + slopes
    if any(isinstance(p, mp.mpc) or not mp.isfinite(p) or abs(p) > 1e4 for p in plain) or max(abs(s) for s in slopes) < 1e-3 or abs(value) < 1e-3 or text in NAMES:
        continue
    made += 1
    print(",".join([f'"{text}"'] + [mp.nstr(v, 4) for v in at] + [mp.nstr(p, 25) for p in plain]))
