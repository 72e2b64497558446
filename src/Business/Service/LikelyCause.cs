namespace MitigationOffice.Business.Service;

/// <summary>One thing that may be behind what is seen.</summary>
/// <param name="Why">Why it is thought of, with the numbers at hand.</param>
/// <param name="OwnerCheck">What the house owner may look at without tools, ladder or opening anything; empty: nothing.</param>
/// <param name="FirstCheck">What the technician looks at first.</param>
/// <param name="Caution">What can hurt in looking.</param>
public sealed record LikelyCause(Cause Cause, string Why, string OwnerCheck, string FirstCheck, string Caution)
{
    public string Name => CauseWords.Of(Cause);
}
