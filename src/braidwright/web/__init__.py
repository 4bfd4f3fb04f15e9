"""The web door: parse, call one use case, answer. On this machine only."""
