namespace PupilBridge.Browser.Tests;

/// <summary>All tests with the one browser.</summary>
[CollectionDefinition(Name)]
public sealed class BrowserTests : ICollectionFixture<ChromiumFixture>
{
    public const string Name = "browser";
}
