"""What makers bring in: bytes of pictures, decoded with care. The only room that knows the decoder."""
