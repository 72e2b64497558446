namespace MitigationOffice.Business.FollowUp;

/// <summary>Houses by their numbers, both ends in it.</summary>
public readonly record struct HouseRange(int From, int To)
{
    public static HouseRange Only(int houseId) => new(houseId, houseId);

    /// <summary>Ranges that hold so many of these numbers each, and together every number there is: what hangs on a house without a
    /// running system is in one of them too.</summary>
    /// <param name="ids">Ascending.</param>
    public static IEnumerable<HouseRange> Over(IReadOnlyList<int> ids, int atOnce)
    {
        var from = int.MinValue;
        for (var at = atOnce; at < ids.Count; at += atOnce)
        {
            yield return new(from, ids[at] - 1);
            from = ids[at];
        }

        yield return new(from, int.MaxValue);
    }
}
