namespace MitigationOffice.Web.Pages.Today;

/// <summary>One thing to do: where, for whom, why.</summary>
public sealed record TodayItem(string Href, string What, string Why, bool Late = false);

/// <summary>Things to do of one kind. More than a page of them is said, not shown.</summary>
public sealed record TodayGroup(string Id, string Title, IReadOnlyList<TodayItem> Items, string? AllHref = null)
{
    /// <summary>How many of one kind are shown.</summary>
    public const int Most = 40;

    public bool HasMore => Items.Count > Most;
    public string Count => HasMore ? $"more than {Most}" : $"{Items.Count}";
    public int Late => Items.Count(i => i.Late);
}
