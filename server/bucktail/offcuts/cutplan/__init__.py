"""A cut plan: several pieces wanted, out of all the offcuts there are. `make_plan` makes one."""
