namespace MitigationOffice.Web.Tests.Guard;

/// <summary>The tests of this folder that only look share one office.</summary>
[CollectionDefinition(Name)]
public sealed class GuardCollection : ICollectionFixture<GuardOffice>
{
    public const string Name = "Guard";
}
