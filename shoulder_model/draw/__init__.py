"""Drawing: matplotlib only. Results in, artists out; made once, then updated."""
