"""What goes over the wire, described with marshmallow. The phone's types are made from it."""
