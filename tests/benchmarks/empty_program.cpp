// What a command costs before it does anything: the denominator of the command row.
int main() { return 0; }
