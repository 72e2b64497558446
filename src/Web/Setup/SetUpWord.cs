using System.Security.Cryptography;
using System.Text;

namespace MitigationOffice.Web.Setup;

/// <summary>Shown in the program's window on an empty office, so that a stranger on the network cannot become its owner.</summary>
public sealed class SetUpWord
{
    public string Value { get; } = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(8));

    public bool Is(string? typed) =>
        CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(Value), Encoding.UTF8.GetBytes((typed ?? "").Trim()));
}
