using Microsoft.AspNetCore.Identity;

namespace MitigationOffice.Business.Staff;

public enum StaffRole
{
    Owner,
    Office,
    Installer,
}

/// <summary>A person who signs in.</summary>
[Data.Holds(Data.Truth.Fact)]
public sealed class StaffMember : IdentityUser<int>
{
    public string FullName { get; set; } = "";
    public StaffRole Role { get; set; } = StaffRole.Installer;

    /// <summary>A person who left: may not sign in; what they did keeps their name.</summary>
    public bool Left { get; set; }
}
