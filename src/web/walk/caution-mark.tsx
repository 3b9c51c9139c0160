/** The shape that stands before every caution. */
export const CautionMark = () => (
  <svg class="caution-mark" viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
    <path d="M12 3 22 21H2z" class="caution-shape" />
    <path d="M12 10v5M12 17.5v1" class="caution-bar" />
  </svg>
);
