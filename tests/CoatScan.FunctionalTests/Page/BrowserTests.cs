namespace CoatScan.FunctionalTests.Page;

/// <summary>Tests of the page have the machine to themselves: a browser is busy enough with one.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class BrowserTests : ICollectionFixture<Browser>
{
    public const string Name = "Browser";
}
