"""The six ways in the cabinet frame: x to the right, y to the back, z up."""

from rodwork.geometry.vec import Vec

LEFT: Vec = (-1.0, 0.0, 0.0)
RIGHT: Vec = (1.0, 0.0, 0.0)
FRONT: Vec = (0.0, -1.0, 0.0)
BACK: Vec = (0.0, 1.0, 0.0)
DOWN: Vec = (0.0, 0.0, -1.0)
UP: Vec = (0.0, 0.0, 1.0)
