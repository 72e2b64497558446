using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>The secret in a link to the house owner's own page: for one owner of one house. It ends with its day, when the office
/// ends it, and when the house has another owner.</summary>
[Holds(Truth.Fact)]
[Index(nameof(TokenHash), IsUnique = true)]
[Index(nameof(HouseId))]
public sealed class OwnerLink : Record
{
    /// <summary>Long enough to answer a letter late; each message brings a new one.</summary>
    public const int LivesDays = 400;

    [NotAudited]
    public required string TokenHash { get; set; }
    public int HouseId { get; set; }
    public int CustomerId { get; set; }
    public DateTime CreatedAtUtc { get; set; }
    public DateTime ExpiresAtUtc { get; set; }
    public DateTime? RevokedAtUtc { get; set; }
}
