/** One function that formulas know, as the help shows it. */
export interface FunctionDescription {
  readonly name: string;
  /** The arguments as the help writes them: `a, b, ...`. */
  readonly arguments: string;
  readonly fewest: number;
  readonly most: number;
  /** One plain sentence: what it gives, and for which arguments. */
  readonly help: string;
}

/** The longest argument list: beyond it a table is the better home, and the derivative's tree would grow with the square. */
const MANY = 50;

function describe(name: string, args: string, help: string, fewest = 1, most = fewest): FunctionDescription {
  return { name, arguments: args, fewest, most, help };
}

/** All functions of the formula language. Nothing else can be called. */
export const FUNCTIONS: readonly FunctionDescription[] = [
  describe('sqrt', 'x', 'Square root of x; x is zero or more, with or without a unit.'),
  describe('cbrt', 'x', 'Cube root of x, with or without a unit.'),
  describe('abs', 'x', 'Magnitude of x, without its sign.'),
  describe('min', 'a, b, ...', 'Smallest of two or more quantities of one kind.', 2, MANY),
  describe('max', 'a, b, ...', 'Largest of two or more quantities of one kind.', 2, MANY),
  describe('mean', 'a, b, ...', 'Arithmetic mean of quantities of one kind.', 1, MANY),
  describe('ln', 'x', 'Natural logarithm of a plain number above zero.'),
  describe('log10', 'x', 'Logarithm to base 10 of a plain number above zero.'),
  describe('exp', 'x', 'e to the power x, for a plain number x.'),
  describe('normal', 'x', 'Share of a standard normal distribution that lies below the plain number x.'),
  describe('normal_quantile', 'p', 'The x below which the share p of a standard normal distribution lies; p between 0 and 1.'),
  describe('student', 't, n', 'Share of Student’s t with n degrees of freedom that lies below t.', 2),
  describe('student_quantile', 'p, n', 'The t below which the share p of Student’s t with n degrees of freedom lies: `student_quantile(0.975, n)` for 95 % on both sides.', 2),
  describe('student_density', 't, n', 'Density of Student’s t with n degrees of freedom at t.', 2),
  describe('chi_square', 'x, n', 'Share of chi-square with n degrees of freedom that lies below x.', 2),
  describe('chi_square_quantile', 'p, n', 'The x below which the share p of chi-square with n degrees of freedom lies.', 2),
  describe('chi_square_density', 'x, n', 'Density of chi-square with n degrees of freedom at x above zero.', 2),
  describe('fisher', 'x, n, m', 'Share of Fisher’s F, n degrees of freedom above and m below the line, that lies below x.', 3),
  describe('fisher_quantile', 'p, n, m', 'The x below which the share p of Fisher’s F with n and m degrees of freedom lies.', 3),
  describe('fisher_density', 'x, n, m', 'Density of Fisher’s F with n and m degrees of freedom at x above zero.', 3),
  describe('sin', 'x', 'Sine of an angle, or of a plain number taken in radians.'),
  describe('cos', 'x', 'Cosine of an angle, or of a plain number taken in radians.'),
  describe('tan', 'x', 'Tangent of an angle, or of a plain number taken in radians.'),
  describe('asin', 'x', 'Angle between -90 and 90 degrees whose sine is x; x lies between -1 and 1.'),
  describe('acos', 'x', 'Angle between 0 and 180 degrees whose cosine is x; x lies between -1 and 1.'),
  describe('atan', 'x', 'Angle between -90 and 90 degrees whose tangent is x.'),
  describe('macaulay', 'x', 'x where it is above zero, else zero: the angle brackets of beam statics.'),
  describe('reversals', 'strain, elastic, b, plastic, c',
    'Reversals 2N at which elastic*(2N)^b + plastic*(2N)^c is the strain amplitude; all plain numbers.', 5),
  describe('if', 'condition, a, b', 'a where the condition holds, else b; a and b are of one kind.', 3),
  describe('u', 'symbol', 'Standard uncertainty of the symbol, taken as a constant.'),
  describe('best', 'symbol', 'Best estimate of the symbol, taken as a constant: its value without its uncertainty.'),
];

const BY_NAME: ReadonlyMap<string, FunctionDescription> = new Map(FUNCTIONS.map((entry) => [entry.name, entry]));

export function functionNamed(name: string): FunctionDescription | undefined {
  return BY_NAME.get(name);
}
