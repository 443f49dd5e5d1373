"""A CP-SAT model whose variables are remembered, so that an answer can be a hint."""
from ortools.sat.python import cp_model


class Model(cp_model.CpModel):
    """Adds short names for what the kitchen needs again and again."""

    def __init__(self):
        super().__init__()
        self.made = []
        self.yes = self.new_constant(1)

    def number(self, least, most, name=""):
        """A whole number from least to most."""
        self.made.append(self.new_int_var(least, most, name))
        return self.made[-1]

    def choice(self, name=""):
        """A truth."""
        self.made.append(self.new_bool_var(name))
        return self.made[-1]

    def both(self, a, b):
        """Whether a and b hold; either may be the constant yes."""
        if a is self.yes or a is b:
            return b
        if b is self.yes:
            return a
        c = self.choice()
        self.add_bool_and([a, b]).only_enforce_if(c)
        self.add_bool_or([~a, ~b, c])
        return c

    def value_of(self, expression, least, most):
        """A number that equals an expression; the expression itself where it is a constant."""
        if isinstance(expression, int):
            return expression
        x = self.number(least, most)
        self.add(x == expression)
        return x

    def span(self, start, end, most, present):
        """An interval from start to end, at most so long, that is there if present."""
        return self.new_optional_interval_var(start, self.number(0, most), end, present, "")
