"""The drawn photographs of the invented houses: a small ray tracer, surfaces, scenes, and the album."""
