namespace CoatScan.FunctionalTests.Page;

/// <summary>Tests of the page have the machine to themselves: some of them look at the clock.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class BrowserTests : ICollectionFixture<Browser>
{
    public const string Name = "Browser";
}
