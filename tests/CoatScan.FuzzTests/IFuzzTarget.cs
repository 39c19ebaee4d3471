namespace CoatScan.FuzzTests;

/// <summary>One way for bytes of a stranger into the program.</summary>
internal interface IFuzzTarget
{
    /// <summary>Its name, also that of its folder in the corpus.</summary>
    string Name { get; }

    /// <summary>Inputs to start from that are made rather than kept.</summary>
    IEnumerable<byte[]> Seeds { get; }

    /// <summary>Makes an input from others.</summary>
    byte[] Mutate(Mutator mutator, IReadOnlyList<byte[]> corpus);

    /// <summary>Makes what the program is given; it is not part of the time.</summary>
    byte[] Prepare(byte[] input) => input;

    /// <summary>Gives what was prepared to the program.</summary>
    /// <returns>The outcome, one that the program declares: two inputs with the same outcome went the same way as far as can be seen.</returns>
    /// <exception cref="Exception">Anything that the program does not declare; the fuzzer reports it.</exception>
    Task<string> RunAsync(byte[] prepared);
}
